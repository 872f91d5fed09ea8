import { type Browser, expect, type Locator, type Page, test } from "@playwright/test";
import { endLink } from "../support/endLink";
import { sentDay, typeDate } from "./fields";
import { holdScripts } from "./held";
import { signIn, type Who } from "./people";
import { linkInNewestMail, minor, newBike, newDraft, sendIt } from "./quoting";
import { demandUsable, listen } from "./watched";

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } as const;
const DESK = { viewport: { width: 1280, height: 900 } } as const;

const DEMO_BIKE = "/s/saltpan/bikes/1";

async function hand(browser: Browser, size: typeof PHONE | typeof DESK, who?: Who) {
  const page = await (await browser.newContext(size)).newPage();
  const ears = listen(page);
  if (who) await signIn(page, who);
  return { page, demandQuiet: ears.demandQuiet };
}

const totalOf = async (page: Page) =>
  minor(
    await page
      .getByText(/^Total AUD/)
      .locator("..")
      .textContent(),
  );

/** Ticks everything that is to be read before a yes. */
async function tickAll(page: Page): Promise<void> {
  for (const box of await page
    .getByRole("group", { name: "Please read and tick" })
    .getByRole("checkbox")
    .all())
    await box.check();
}

const accepted = (page: Page): Locator =>
  page.getByRole("heading", { name: "Thank you, this quote is accepted" });

test("a customer reads the mail, compares, asks, chooses an alternative with an extra, says when, and says yes once", async ({
  browser,
}) => {
  const name = `Odile Varga ${Date.now() % 100_000}`;
  const desk = await hand(browser, DESK, "saltpanOwner");
  const { page } = desk;
  let quotePath = "";
  let link = "";

  await test.step("the desk keeps two alternatives, offers an extra and sends", async () => {
    quotePath = await newDraft(page, await newBike(page, name, "S640 ODV"));
    const keep = async (alternative: string) => {
      await page.goto(`${quotePath}/alternatives`);
      await page.getByRole("textbox", { name: "Name (may stay empty)" }).fill(alternative);
      await page.getByRole("button", { name: "Keep it" }).click();
      await expect(page.getByRole("columnheader", { name: new RegExp(alternative) })).toBeVisible();
    };
    await keep("Open road");
    await page.goto(quotePath);
    // The next page is asked for once the tick has been answered: it keeps what the draft has by then.
    const answered = page.waitForResponse((answer) => answer.request().method() === "POST");
    await page.getByRole("radio", { name: /Snorkel out only/ }).check();
    await answered;
    await expect(page.getByRole("radio", { name: /^Airbox opening/ })).not.toBeChecked();
    await keep("Quieter");
    await page.getByRole("button", { name: "Take A" }).click();
    await expect(page).toHaveURL(new RegExp(`${quotePath}$`));
    await page.getByRole("button", { name: "Extras to offer" }).click();
    await page
      .getByRole("dialog")
      .getByRole("checkbox", { name: /Air filter renewed/ })
      .check();
    await page.getByRole("button", { name: "Save the extras" }).click();
    await expect(page.getByText("Offered as extras: Air filter renewed.")).toBeVisible();
    await page.getByText("Let them choose an alternative").click();
    await page.getByRole("checkbox", { name: /^A, Open road/ }).check();
    await page.getByRole("checkbox", { name: /^B, Quieter/ }).check();
    await demandUsable(page);
    const shown = await sendIt(page);
    link = await linkInNewestMail(page);
    expect(link).toBe(shown);
  });

  const customer = await hand(browser, PHONE);
  const phone = customer.page;
  let extra = 0;
  let total = 0;
  await test.step("on the phone the ways stand side by side, and total and text follow the choice", async () => {
    await phone.goto(link);
    await demandUsable(phone);
    const alternatives = phone
      .getByRole("listitem")
      .filter({ has: phone.getByRole("heading", { level: 3 }) });
    await expect(alternatives).toHaveCount(2);
    await expect(alternatives.nth(0)).toContainText("Chosen");
    await expect(alternatives.nth(1)).toContainText("The snorkel comes out.");
    const first = await totalOf(phone);
    await phone.getByRole("link", { name: "Choose B, Quieter" }).tap();
    await expect(phone).toHaveURL(/\?alternative=B$/);
    await expect(phone.getByRole("heading", { name: "What we do: B, Quieter" })).toBeVisible();
    await expect(alternatives.nth(1)).toContainText("Chosen");
    const alternative = await totalOf(phone);
    expect(alternative).toBeLessThan(first);
    const box = phone.getByRole("checkbox", { name: /Air filter renewed/ });
    extra = minor(await phone.locator("label", { has: box }).getByText(/^\+/).textContent());
    await box.tap();
    await expect(phone).toHaveURL(/alternative=B&extra=air-filter/);
    await expect(box).toBeChecked();
    total = alternative + extra;
    await expect.poll(() => totalOf(phone)).toBe(total);
    await demandUsable(phone);
  });

  await test.step("an extra that is ticked before the page is live is reckoned with once it is", async () => {
    const release = await holdScripts(phone);
    await phone.goto(`${link}?alternative=B`, { waitUntil: "commit" });
    await phone.getByRole("checkbox", { name: /Air filter renewed/ }).tap();
    expect(await totalOf(phone)).toBe(total - extra);
    release();
    await expect.poll(() => totalOf(phone)).toBe(total);
    await expect(phone).toHaveURL(/alternative=B&extra=air-filter/);
    await phone.unrouteAll();
  });

  await test.step("a question is asked, answered by the desk, and the answer stands there", async () => {
    await phone.getByText("Ask a question first").tap();
    await phone.getByRole("textbox", { name: "Your question" }).fill("Is it louder in town?");
    await phone.getByRole("button", { name: "Ask the shop" }).tap();
    await expect(phone.getByText("The shop has it and will answer.")).toBeVisible();
    await page.goto(quotePath);
    await page.getByRole("textbox", { name: "Answer" }).fill("Hardly: the box stays whole.");
    await page.getByRole("button", { name: "Send the answer" }).click();
    await expect(page.getByRole("button", { name: "Send the answer" })).toBeHidden();
    await phone.reload();
    await expect(phone.getByText("Hardly: the box stays whole.")).toBeVisible();
    expect(await totalOf(phone)).toBe(total);
  });

  const second = await hand(browser, PHONE);
  await test.step("a day that is over is refused, and nothing typed is lost", async () => {
    await tickAll(phone);
    await phone.getByRole("textbox", { name: "Your full name" }).fill(name);
    await phone.getByText("Say when it would suit you").tap();
    await phone.getByRole("radio", { name: "From a day on" }).check();
    await typeDate(phone, "From which day", "2020-02-03");
    await phone.getByRole("checkbox", { name: "Tuesday" }).check();
    await phone.getByRole("textbox", { name: "Anything else about the day" }).fill("Not before nine");
    await phone.getByRole("button", { name: "Accept this quote" }).tap();
    await expect(phone.getByText(/This day is over/).first()).toBeVisible();
    await expect(phone.getByRole("textbox", { name: "Your full name" })).toHaveValue(name);
    await expect(sentDay(phone, "wishFrom")).toHaveValue("2020-02-03");
    await expect(phone.getByRole("checkbox", { name: "Tuesday" })).toBeChecked();
    await expect(phone.getByRole("textbox", { name: "Anything else about the day" })).toHaveValue(
      "Not before nine",
    );
    await demandUsable(phone);
  });

  await test.step("a double tap and a second device make one job", async () => {
    const day = new Date(Date.now() + 20 * 86_400_000).toISOString().slice(0, 10);
    await typeDate(phone, "From which day", day);
    await second.page.goto(`${link}?alternative=B&extra=air-filter`);
    await tickAll(second.page);
    await second.page.getByRole("textbox", { name: "Your full name" }).fill(name);
    await Promise.all([
      phone.getByRole("button", { name: "Accept this quote" }).dblclick(),
      second.page.getByRole("button", { name: "Accept this quote" }).dblclick(),
    ]);
    await expect(accepted(phone)).toBeVisible();
    await expect(accepted(second.page)).toBeVisible();
    await demandUsable(phone);
    await page.goto(`/s/saltpan/jobs?q=${encodeURIComponent(name)}`);
    await expect(page.getByRole("link", { name: /^Job \d+/ })).toHaveCount(1);
  });

  await test.step("the proof names the way and the extra, and the text is unaltered", async () => {
    await page.goto(`${quotePath}/proof`);
    await expect(page.getByText("B, Quieter, of A, Open road; B, Quieter")).toBeVisible();
    await expect(page.getByText("added by the customer when accepting")).toBeVisible();
    await expect(page.getByText("unaltered")).toBeVisible();
    expect(await totalOf(page)).toBe(total);
    await demandUsable(page);
  });
  for (const one of [desk, customer, second]) one.demandQuiet();
});

test("a yes from the mail is a few acts, without zooming or scrolling sideways", async ({ browser }) => {
  const desk = await hand(browser, DESK, "saltpanOwner");
  const name = `Benno Ruud ${Date.now() % 100_000}`;
  const quotePath = await newDraft(desk.page, await newBike(desk.page, name, "S640 BEN"));
  await sendIt(desk.page);
  const link = await linkInNewestMail(desk.page);

  const { page, demandQuiet } = await hand(browser, PHONE);
  await page.goto(link);
  await demandUsable(page);
  expect(await page.evaluate(() => window.visualViewport?.scale)).toBe(1);
  const size = await page
    .getByRole("main")
    .evaluate((el) => Number.parseFloat(getComputedStyle(el).fontSize));
  expect(size).toBeGreaterThanOrEqual(16);
  let acts = 1;
  for (const box of await page
    .getByRole("group", { name: "Please read and tick" })
    .getByRole("checkbox")
    .all()) {
    await box.tap();
    acts += 1;
  }
  await page.getByRole("textbox", { name: "Your full name" }).fill(name);
  await page.getByText("Say when it would suit you").tap();
  await page.getByRole("radio", { name: "As soon as you can" }).tap();
  await page.getByRole("button", { name: "Accept this quote" }).tap();
  acts += 4;
  await expect(accepted(page)).toBeVisible();
  expect(acts).toBeLessThanOrEqual(8);

  await desk.page.goto(quotePath);
  await desk.page.getByRole("link", { name: /^To job \d+/ }).click();
  await expect(desk.page.getByText("as soon as it can be")).toBeVisible();
  await desk.page.getByRole("link", { name: "Book it in" }).click();
  await expect(desk.page.getByText(/The customer wishes: as soon as it can be/)).toBeVisible();
  await demandUsable(desk.page);
  demandQuiet();
  desk.demandQuiet();
});

test("a link that is used, declined, altered, expired, renewed or replaced says so kindly and shows nothing private", async ({
  browser,
}) => {
  const stamp = Date.now() % 100_000;
  const name = `Zelda Quorn ${stamp}`;
  const plate = `ZQ ${stamp}`;
  const desk = await hand(browser, DESK, "saltpanDesk");
  const bikePath = await newBike(desk.page, name, plate);
  const { page } = await hand(browser, PHONE);

  const looked = new Set<string>();
  const demandClosed = async (link: string, heading: string, status: number) => {
    const response = await page.goto(link);
    expect(response?.status()).toBe(status);
    await expect(page.getByRole("heading", { level: 1, name: heading })).toBeVisible();
    if (!looked.has(heading)) await demandUsable(page);
    looked.add(heading);
    const bare = await page.request.get(link, { headers: { RSC: "1" } });
    for (const text of [await page.content(), await bare.text()])
      for (const canary of [name, plate, "Tarrant", "Airbox", "reader@customer.example", "Total AUD"])
        expect(text.includes(canary), `${link} shows "${canary}"`).toBe(false);
    expect((await page.request.get(`${link.split("?")[0]}/pdf`)).status()).toBe(404);
  };

  await test.step("declined, with a reason that the desk sees", async () => {
    const quotePath = await newDraft(desk.page, bikePath);
    const link = await sendIt(desk.page);
    await page.goto(link);
    // The canaries stand on an open link: what is looked for below can be found.
    for (const canary of ["Tarrant", "Airbox", "Total AUD", name])
      expect((await page.content()).includes(canary)).toBe(true);
    await page.getByText("Not this time").tap();
    await page.getByRole("textbox", { name: /Why not/ }).fill("Too dear before the summer");
    // Whoever leaves at once takes it back: it is sent once the pressed button has been seen.
    const answered = page.waitForResponse((answer) => answer.request().method() === "POST");
    await page.getByRole("button", { name: "Decline" }).tap();
    await answered;
    await demandClosed(link, "You said no to this quote", 200);
    await desk.page.goto(quotePath);
    await expect(desk.page.getByText("Too dear before the summer")).toBeVisible();
  });

  await test.step("altered by a mail, or of no shop", async () => {
    const quotePath = await newDraft(desk.page, bikePath);
    const link = await sendIt(desk.page);
    const altered = `${link.slice(0, -1)}${link.endsWith("A") ? "B" : "A"}`;
    await demandClosed(altered, "This link does not open", 404);
    await demandClosed(link.replace("/saltpan/", "/fjellrev/"), "This link does not open", 404);
    const strayed = await page.goto(`${link}?alternative=Q&extra=made-up`);
    expect(strayed?.status()).toBe(200);
    await expect(page.getByText("Part of this address is not of this quote.")).toBeVisible();
    await expect(page.getByRole("button", { name: "Accept this quote" })).toBeVisible();

    // Renewed while the customer's page is open: the form says so, and what was typed stays.
    await tickAll(page);
    await page.getByRole("textbox", { name: "Your full name" }).fill(name);
    await desk.page.goto(quotePath);
    await desk.page.getByRole("button", { name: "Make a new link" }).click();
    const shown = desk.page.getByRole("status").filter({ hasText: "The customer's link" });
    await expect(shown).toBeVisible();
    await page.getByRole("button", { name: "Accept this quote" }).tap();
    await expect(page.getByText("This link no longer works.")).toBeVisible();
    await expect(page.getByRole("textbox", { name: "Your full name" })).toHaveValue(name);
    await demandClosed(link, "This link is no longer in use", 200);

    const renewed = new URL(((await shown.locator("output").textContent()) ?? "").trim()).pathname;
    endLink("saltpan", renewed.split("/").at(-1) ?? "");
    await demandClosed(renewed, "This link is no longer in use", 200);
  });

  await test.step("used, and replaced by another quote", async () => {
    const quotePath = await newDraft(desk.page, bikePath);
    const link = await sendIt(desk.page);
    await desk.page.goto(`${quotePath}/yes`);
    await demandUsable(desk.page);
    await desk.page.getByRole("textbox", { name: "How" }).fill("by phone");
    for (const box of await desk.page
      .getByRole("group", { name: "Read to them, and understood" })
      .getByRole("checkbox")
      .all())
      await box.check();
    await desk.page.getByRole("button", { name: "Accept for them and make the job" }).click();
    await expect(desk.page.getByRole("heading", { level: 1, name: /^Job \d+/ })).toBeVisible();
    // The link goes on as the job's page: what was agreed, and nothing to agree to any more.
    for (const address of [link, `${link}?alternative=B`]) {
      expect((await page.goto(address))?.status()).toBe(200);
      await expect(page.getByRole("heading", { name: "Thank you, this quote is accepted" })).toBeVisible();
      await expect(page.getByRole("heading", { name: "What you agreed to" })).toBeVisible();
      await expect(page.getByRole("button", { name: "Accept this quote" })).toHaveCount(0);
    }
    await demandUsable(page);
    expect((await page.request.get(`${link}/pdf`)).status()).toBe(200);

    await newDraft(desk.page, bikePath);
    const other = await sendIt(desk.page);
    await desk.page.getByRole("button", { name: "Another package" }).click();
    await desk.page.getByRole("dialog").getByRole("radio").first().check();
    await desk.page.getByRole("button", { name: "Start the new quote" }).click();
    await expect(desk.page.getByText("Draft, revision 1")).toBeVisible();
    await demandClosed(other, "This link is no longer in use", 200);
  });
  desk.demandQuiet();
});

test("two people at one draft see each other's change, and nothing typed is lost", async ({ browser }) => {
  const owner = await hand(browser, DESK, "saltpanOwner");
  const desk = await hand(browser, DESK, "saltpanDesk");
  const quotePath = await newDraft(owner.page, DEMO_BIKE);
  await owner.page.getByRole("button", { name: "Add a line" }).click();
  const dialog = owner.page.getByRole("dialog");
  await dialog.getByRole("textbox", { name: "What it is" }).fill("Collected by trailer");
  await dialog.getByRole("textbox", { name: /^Price/ }).fill("45");

  await desk.page.goto(quotePath);
  await desk.page.getByRole("checkbox", { name: /Air filter renewed/ }).check();
  await expect(desk.page.getByRole("form", { name: "Options" })).not.toHaveAttribute("aria-busy", "true");

  await dialog.getByRole("button", { name: "Add the line" }).click();
  await expect(dialog.getByRole("alert")).toContainText(/has changed since you opened it\. Petra Voss/);
  await expect(dialog.getByRole("textbox", { name: "What it is" })).toHaveValue("Collected by trailer");
  await expect(dialog.getByRole("textbox", { name: /^Price/ })).toHaveValue("45");
  await owner.page.reload();
  await expect(owner.page.getByRole("checkbox", { name: /Air filter renewed/ })).toBeChecked();

  // The other way round: a tick on an old page is refused, told, and the page then stands as it is now.
  await owner.page.getByRole("checkbox", { name: /Header weld dressed/ }).check();
  await expect(owner.page.getByRole("form", { name: "Options" })).not.toHaveAttribute("aria-busy", "true");
  // Not `uncheck`: the box is ticked again as soon as that is refused.
  await desk.page.getByRole("checkbox", { name: /Air filter renewed/ }).click();
  await expect(desk.page.getByRole("form", { name: "Options" }).getByRole("alert")).toContainText(
    "Maren Tolliver",
  );
  await expect(desk.page.getByRole("checkbox", { name: /Header weld dressed/ })).toBeChecked();
  await expect(desk.page.getByRole("checkbox", { name: /Air filter renewed/ })).toBeChecked();
  owner.demandQuiet();
  desk.demandQuiet();
});
