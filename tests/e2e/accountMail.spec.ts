import { type Browser, expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { type OwnServer, startOwnServer } from "../support/ownServer";
import { type MailServer, mailServer } from "../support/smtp";
import { demandUsable, listen } from "./watched";

const port = E2E.port + 1;
const url = `http://localhost:${port}`;
const PASSWORD = "three words, seated";
const NEW = "rook@shop.example";

let mails: MailServer;
let server: OwnServer;

test.beforeAll(async () => {
  mails = await mailServer();
  server = await startOwnServer(port, `${E2E.data}-mail`, E2E.password, {
    DEMO: "off",
    SMTP_URL: mails.url,
    MAIL_FROM: "post@shop.example",
  });
});
test.afterAll(async () => {
  await server.stop();
  await mails.close();
});

/** The newest mail to an address once there are `count` of them: its text as it was before it travelled. */
async function newest(to: string, count: number): Promise<string> {
  const theirs = () => mails.received.filter((one) => one.to.includes(to));
  await expect.poll(() => theirs().length, { timeout: 30_000 }).toBe(count);
  return (theirs().at(-1)?.raw ?? "").replace(/=\r\n/g, "").replace(/=3D/g, "=");
}

async function openShop(page: Page, email: string, shop: string): Promise<void> {
  await page.goto(`${url}/signup`);
  await page.getByLabel("Your name").fill("Rook Tamsin");
  await page.getByLabel("Email").fill(email);
  await page.getByLabel("Password").fill(PASSWORD);
  await page.getByLabel("Shop name").fill(shop);
  await page.getByRole("button", { name: "Open the shop" }).click();
  await expect(page).toHaveURL(`${url}/signup/sent`);
}

const fresh = async (browser: Browser) =>
  (
    await browser.newContext({ viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true })
  ).newPage();

test("with mail, a shop opens by a letter, and nobody learns which addresses have a sign-in", async ({
  browser,
}) => {
  const page = await fresh(browser);
  const ears = listen(page);
  await openShop(page, NEW, "Tamsin Carburettors");
  await demandUsable(page);
  const said = await page.locator("main").textContent();
  const link = new RegExp(`${url}/signup/[\\w-]+`).exec(await newest(NEW, 1))?.[0] ?? "";
  expect(link).not.toBe("");

  // Its reader alone opens nothing: the password that was chosen is wanted too.
  await page.goto(link);
  await demandUsable(page);
  await page.getByLabel("Password").fill("whatever comes to mind");
  await page.getByRole("button", { name: "Open the shop" }).click();
  await expect(page.getByText("That is not the password this shop was asked for with.")).toBeVisible();
  await page.getByLabel("Password").fill(PASSWORD);
  await page.getByRole("button", { name: "Open the shop" }).click();
  await expect(page).toHaveURL(`${url}/s/tamsin-carburettors`);
  await page.goto(link);
  await expect(page.getByRole("heading", { name: "This link is used or over" })).toBeVisible();

  // The same address once more: the same answer, word for word, and a mail of another kind to its owner.
  const stranger = await fresh(browser);
  await openShop(stranger, NEW, "Another Shop");
  expect(await stranger.locator("main").textContent()).toBe(said);
  expect(await newest(NEW, 2)).toContain("has a sign-in here already");

  // A forgotten password: the same answer for known and unknown, and a mail to the known one.
  for (const email of ["nobody@shop.example", NEW]) {
    await stranger.goto(`${url}/reset`);
    await stranger.getByLabel("Email").fill(email);
    await stranger.getByRole("button", { name: "Send me a link" }).click();
    await expect(stranger).toHaveURL(`${url}/signin`);
    await expect(stranger.getByText("If that address is known here, a link is on its way.")).toBeVisible();
  }
  const reset = new RegExp(`${url}/new-password/[\\w-]+`).exec(await newest(NEW, 3))?.[0] ?? "";
  expect(mails.received.some((one) => one.to.includes("nobody@shop.example"))).toBe(false);
  await stranger.goto(reset);
  await stranger.getByRole("textbox", { name: "New password" }).fill("four words, not seated");
  await stranger.getByRole("button", { name: "Set it" }).click();
  await expect(stranger).toHaveURL(`${url}/signin`);
  expect(await newest(NEW, 4)).toContain("Your password was changed");
  // The device that was signed in is out.
  await page.goto(`${url}/account`);
  await expect(page).toHaveURL(/signin/);
  ears.demandQuiet();

  // A browser never seen before is told of by mail; signing in on it again is not.
  for (const _ of ["new", "known"]) {
    await stranger.goto(`${url}/signin`);
    await stranger.getByLabel("Email").fill(NEW);
    await stranger.getByLabel("Password").fill("four words, not seated");
    await stranger.getByRole("button", { name: "Sign in" }).click();
    await expect(stranger).toHaveURL(`${url}/s/tamsin-carburettors`);
    await stranger.goto(`${url}/account`);
    await stranger.getByRole("button", { name: "Sign out", exact: true }).click();
    await expect(stranger).toHaveURL(/signin/);
  }
  expect(await newest(NEW, 5)).toContain("A sign-in from a new device");
});
