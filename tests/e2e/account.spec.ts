import { type Browser, type BrowserContext, expect, type Page, test } from "@playwright/test";
import { generate } from "otplib";
import { demandUsable, listen } from "./watched";
import { widths } from "./widths";

const SIZES = {
  "1280 wide": { viewport: { width: 1280, height: 900 } },
  "360 wide": { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true },
} as const;

type Size = (typeof SIZES)[keyof typeof SIZES];

const PASSWORD = "three words, seated";
const shots = process.env.SHOTS;

/** A picture for people to look at, where SHOTS names a folder. */
async function shot(page: Page, name: string): Promise<void> {
  const { width } = page.viewportSize() ?? { width: 0 };
  if (shots) await page.screenshot({ path: `${shots}/${name}-${width}.png`, fullPage: true });
}

const form = (page: Page, name: string | RegExp) => page.getByRole("form", { name });

/** The code an app would show, `steps` of thirty seconds from now: one ahead counts, and none counts twice. */
const code = (secret: string, steps = 0) =>
  generate({ secret, epoch: Math.floor(Date.now() / 1000) + steps * 30 });

async function fillSignIn(page: Page, email: string): Promise<void> {
  await page.goto("/signin");
  await page.getByLabel("Email").fill(email);
  await page.getByLabel("Password").fill(PASSWORD);
  await page.getByRole("button", { name: "Sign in" }).click();
}

async function giveCode(page: Page, text: string): Promise<void> {
  await page.getByRole("textbox", { name: "Code" }).fill(text);
  await form(page, "Second step of signing in").getByRole("button", { name: "Sign in" }).click();
}

async function newPage(browser: Browser, size: Size): Promise<{ page: Page; context: BrowserContext }> {
  const context = await browser.newContext(size);
  return { context, page: await context.newPage() };
}

for (const [where, size] of widths(SIZES, "360 wide"))
  test(`a person guards their sign-in: second factor, recovery codes, devices, ${where}`, async ({
    browser,
  }) => {
    const { page, context } = await newPage(browser, size);
    // A refused sign-in is answered with 401, which the browser tells as well.
    const ears = listen(page, /\/signin: .*401 \(Unauthorized\)/);
    const stamp = Date.now();
    const email = `rook-${stamp}@shop.example`;

    // A password that is guessed soon is refused with the reason, and what was typed stays.
    await page.goto("/signup");
    await page.getByLabel("Your name").fill("Rook Tamsin");
    await page.getByLabel("Email").fill(email);
    await page.getByLabel("Password").fill("Password1234!");
    await page.getByLabel("Shop name").fill(`Tamsin Carburettors ${stamp}`);
    await page.getByRole("button", { name: "Open the shop" }).click();
    await expect(page.getByText("That password would be guessed too soon.")).toBeVisible();
    await expect(page.getByLabel("Password")).toHaveAttribute("aria-invalid", "true");
    await expect(page.getByText(/close to a password that many people use/).first()).toBeVisible();
    await demandUsable(page);
    await shot(page, "signup-refused");
    await page.getByLabel("Password").fill(PASSWORD);
    await page.getByRole("button", { name: "Open the shop" }).click();
    await expect(page).toHaveURL(/\/s\/tamsin-carburettors/);
    const home = new URL(page.url()).pathname;

    await page.goto("/account");
    await demandUsable(page);
    await shot(page, "account");
    await page.getByRole("link", { name: /^Second factor/ }).click();
    await demandUsable(page);
    await shot(page, "factor-off");
    await form(page, "Set up a second factor").getByLabel("Present password").fill("not the one at all");
    await page.getByRole("button", { name: "Set it up" }).click();
    await expect(page.getByText("The present password is not that.")).toBeVisible();
    await form(page, "Set up a second factor").getByLabel("Present password").fill(PASSWORD);
    await page.getByRole("button", { name: "Set it up" }).click();
    await expect(page.getByRole("img", { name: "QR code for your authenticator app" })).toBeVisible();
    await demandUsable(page);
    await shot(page, "factor-set-up");
    const key = (await page.getByText("Or type this key there:").locator("span").textContent()) ?? "";
    const secret = key.replace(/\s/g, "");
    expect(secret).toMatch(/^[A-Z2-7]{32}$/);

    const turnOn = form(page, "Turn the second factor on");
    await turnOn.getByRole("textbox", { name: "Code" }).fill("000000");
    await turnOn.getByRole("button", { name: "Turn it on" }).click();
    await expect(page.getByText("That code does not count.")).toBeVisible();
    await turnOn.getByRole("textbox", { name: "Code" }).fill(await code(secret));
    await turnOn.getByRole("button", { name: "Turn it on" }).click();
    const codes = turnOn.getByRole("listitem");
    await expect(codes).toHaveCount(10);
    const oldCodes = await codes.allTextContents();
    const [first = "", second = "", third = ""] = oldCodes;
    expect(first).toMatch(/^[a-z2-7]{4}(-[a-z2-7]{4}){3}$/);
    await expect(page.getByRole("button", { name: "Begin again" })).toBeHidden();
    await demandUsable(page);
    await shot(page, "factor-codes");
    await page.getByRole("link", { name: "I have kept them" }).click();
    await expect(page.getByText("10 of ten recovery codes are left")).toBeVisible();
    await expect(page.getByText(first)).toBeHidden();
    await demandUsable(page);
    await shot(page, "factor-on");

    // Signing in: nothing of the second factor before the password is right.
    await page.goto("/account");
    await page.getByRole("button", { name: "Sign out", exact: true }).click();
    await expect(page).toHaveURL(/signin/);
    await page.getByLabel("Email").fill(email);
    await page.getByLabel("Password").fill("not the one at all");
    await page.getByRole("button", { name: "Sign in" }).click();
    await expect(page.getByText("That address and password do not match.")).toBeVisible();
    await expect(page.getByRole("textbox", { name: "Code" })).toBeHidden();
    await fillSignIn(page, email);
    await expect(page.getByRole("textbox", { name: "Code" })).toBeFocused();
    await demandUsable(page);
    await shot(page, "signin-code");
    await giveCode(page, "000000");
    await expect(page.getByText(/That code does not count/)).toBeVisible();
    await giveCode(page, first);
    await expect(page).toHaveURL(new RegExp(`${home}$`));

    // A recovery code counts once; a code of the app lets a second device in.
    const other = await newPage(browser, size);
    await fillSignIn(other.page, email);
    await giveCode(other.page, first);
    await expect(other.page.getByText(/That code does not count/)).toBeVisible();
    await giveCode(other.page, await code(secret, 1));
    await expect(other.page).toHaveURL(new RegExp(`${home}$`));

    await page.goto("/account/devices");
    await expect(page.getByText("this one")).toHaveCount(1);
    await expect(page.getByRole("button", { name: "Sign it out" })).toHaveCount(1);
    await demandUsable(page);
    await shot(page, "devices");
    await page.getByRole("button", { name: "Sign it out" }).click();
    await expect(page.getByRole("button", { name: "Sign it out" })).toHaveCount(0);
    await other.page.goto(`${home}/stock`);
    await expect(other.page).toHaveURL(/signin/);

    // next-auth's own way out ends the session on the server: the cookie put back opens nothing.
    await fillSignIn(other.page, email);
    await giveCode(other.page, second);
    await expect(other.page).toHaveURL(new RegExp(`${home}$`));
    const kept = await other.context.cookies();
    const { csrfToken } = await (await other.page.request.get("/api/auth/csrf")).json();
    const out = await other.page.request.post("/api/auth/signout", {
      form: { csrfToken, callbackUrl: "/", json: "true" },
      headers: { Origin: new URL(page.url()).origin },
    });
    expect(out.status()).toBe(200);
    await other.context.addCookies(kept);
    await other.page.goto("/account");
    await expect(other.page).toHaveURL(/signin/);

    // The shop asks its owners for it; without it the owner is led to set it up.
    await page.goto(`${home}/shop/settings`);
    await page.getByLabel(/^Owners come in with a second factor only/).check();
    await page.getByRole("button", { name: "Save ways in" }).click();
    await expect(page.getByText("Owners need a second factor from now on.")).toBeVisible();
    await demandUsable(page);
    await shot(page, "settings");
    expect((await page.goto(`${home}/stock`))?.status()).toBe(200);
    await page.goto("/account/second-factor");
    // Ten new codes, bought with one of the old, which count no more then.
    const anewCodes = form(page, "Make new recovery codes");
    await anewCodes.getByLabel("Present password").fill(PASSWORD);
    await anewCodes.getByRole("textbox", { name: "Code" }).fill(third);
    await anewCodes.getByRole("button", { name: "Make ten new codes" }).click();
    await expect(anewCodes.getByRole("listitem")).toHaveCount(10);
    const [fresh = ""] = await anewCodes.getByRole("listitem").allTextContents();
    expect(oldCodes).not.toContain(fresh);
    await expect(form(page, "Turn the second factor off")).toBeHidden();
    await anewCodes.getByRole("link", { name: "I have kept them" }).click();
    await page.getByRole("link", { name: /^Second factor/ }).click();
    const off = form(page, "Turn the second factor off");
    await off.getByLabel("Present password").fill(PASSWORD);
    await off.getByRole("textbox", { name: "Code" }).fill(fresh);
    await off.getByRole("button", { name: "Turn it off" }).click();
    await expect(page.getByRole("button", { name: "Set it up" })).toBeVisible();
    await page.goto(`${home}/stock`);
    await expect(page).toHaveURL(/\/account\/second-factor\?to=/);
    await expect(page.getByText(/asks its owners for one/)).toBeVisible();
    await demandUsable(page);
    await shot(page, "factor-asked");
    const file = await page.request.get(`/api${home}/invoices/csv`);
    expect(file.status()).toBe(403);

    // Set up once more, and on into the shop.
    await form(page, "Set up a second factor").getByLabel("Present password").fill(PASSWORD);
    await page.getByRole("button", { name: "Set it up" }).click();
    const anew = (await page.getByText("Or type this key there:").locator("span").textContent()) ?? "";
    await turnOn.getByRole("textbox", { name: "Code" }).fill(await code(anew.replace(/\s/g, "")));
    await turnOn.getByRole("button", { name: "Turn it on" }).click();
    await page.getByRole("link", { name: "I have kept them" }).click();
    await expect(page).toHaveURL(new RegExp(`${home}$`));

    // What happened is there to read, for the person and for the shop's owner.
    await page.goto("/account/security");
    for (const act of ["Signed up", "Used a recovery code", "Gave a wrong code", "Ended a session"])
      await expect(page.getByText(act).first()).toBeVisible();
    await demandUsable(page);
    await shot(page, "security-own");
    await page.goto(`${home}/shop/security`);
    await expect(page.getByText("turned off the second factor").first()).toBeVisible();
    await demandUsable(page);
    await shot(page, "security-shop");
    ears.demandQuiet();
    await context.close();
    await other.context.close();
  });
