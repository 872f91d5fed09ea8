import { expect, type Page, test } from "@playwright/test";
import { pick } from "./fields";
import { signIn } from "./people";
import { sendIt } from "./quoting";
import { demandUsable, listen } from "./watched";

const DESK = { viewport: { width: 1280, height: 900 } };
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

const minorOf = (text: string) => Number(text.replace(/[^\d]/g, ""));
const totalOf = async (page: Page) =>
  minorOf(
    (await page
      .getByText(/^Total AUD/)
      .locator("..")
      .first()
      .textContent()) ?? "",
  );
/** Minutes that the job's page says are planned. */
async function plannedOf(page: Page): Promise<number> {
  const said = (await page.getByText(/steps done · \d+ min planned/).textContent()) ?? "";
  return Number(/(\d+) min planned/.exec(said)?.[1]);
}
const stepsOf = async (page: Page) =>
  (
    await page
      .getByRole("table", { name: /^Steps with planned/ })
      .getByRole("link")
      .allTextContents()
  ).map((text) => text.replace(/^\d+\s*/, "").trim());

/** A quote of these options of “Jet and screw reset”, sent; answers its total and the customer's way to it. */
async function sendReset(page: Page, options: readonly RegExp[]): Promise<{ total: number; link: string }> {
  await page.getByRole("radio", { name: /^Jet and screw reset/ }).check();
  await page.getByRole("button", { name: "Start the quote" }).click();
  await expect(page.getByRole("heading", { level: 1, name: /^Quote \d+/ })).toBeVisible();
  // Each tick is waited for by its own answer: the page is live before the first one.
  await page.waitForLoadState("networkidle");
  for (const box of [/^Main jet, large round/, /^Mixture screw and idle/, /^Bowl and float/, /^Vent hoses/]) {
    const wanted = options.some((option) => option.source === box.source);
    // Of the main jets one is chosen, or none.
    const tick = page.getByRole("checkbox", { name: box }).or(page.getByRole("radio", { name: box }));
    if ((await tick.isChecked()) === wanted) continue;
    const round = (await tick.getAttribute("type")) === "radio";
    const kept = page.waitForResponse((answer) => answer.request().method() === "POST");
    await (round && !wanted ? page.getByRole("radio", { name: "None of these" }) : tick).click();
    await kept;
    await expect(tick).toBeChecked({ checked: wanted });
  }
  // The page is drawn anew after the last tick: what is sent is the quote as it stands then.
  await page.waitForLoadState("networkidle");
  const link = await sendIt(page);
  return { total: await totalOf(page), link };
}

async function sayYes(customer: Page, link: string): Promise<void> {
  await customer.goto(link);
  await demandUsable(customer);
  const read = customer.getByRole("group", { name: "Please read and tick" });
  for (const box of await read.getByRole("checkbox").all()) await box.check();
  await customer.getByRole("textbox", { name: "Your full name" }).fill("Benedikta Marsh");
  await customer.getByRole("button", { name: "Accept this quote" }).click();
  await expect(customer.getByRole("heading", { name: "Thank you, this quote is accepted" })).toBeVisible();
}

/** Passes the step that is shown: checks ticked, the reading in the middle of 12 to 15 mm. */
async function pass(page: Page, title: string): Promise<void> {
  await expect(page.getByRole("heading", { level: 2 }).first()).toHaveText(title);
  const form = page.getByRole("form", { name: /^Pass / });
  for (const part of await form.getByRole("radio", { name: /^Used: take/ }).all()) await part.check();
  for (const box of await form.getByRole("checkbox").all()) await box.check();
  for (const reading of await form.locator('input[name^="readings."]').all()) await reading.fill("13.5");
  await expect(form.locator("[data-rests]")).toHaveCount(0);
  await page.getByRole("button", { name: "Pass and go on" }).click();
  await expect(page.getByRole("heading", { level: 2 }).first()).not.toHaveText(title);
}

test("a finding becomes a variation that is done while the carburettor is open, and adds up on job and invoice", async ({
  browser,
}) => {
  const desk = await (await browser.newContext(DESK)).newPage();
  const tuner = await (await browser.newContext(PHONE)).newPage();
  const customer = await (await browser.newContext(PHONE)).newPage();
  const ears = [desk, tuner, customer].map((page) => listen(page));
  await signIn(desk, "saltpanDesk");
  await signIn(tuner, "saltpanTuner");

  let job = "";
  let first = { total: 0, link: "" };
  await test.step("a job of jets and a clean bowl, the bike here", async () => {
    await desk.goto("/s/saltpan/customers/new");
    await desk
      .getByRole("textbox", { name: "Name", exact: true })
      .fill(`Benedikta Marsh ${Date.now() % 100_000}`);
    await desk.getByRole("button", { name: "Add the customer" }).click();
    await desk.getByRole("link", { name: "Add a bike" }).click();
    await pick(desk, "Model card", "drover 580");
    await desk.getByRole("button", { name: "Add the bike" }).click();
    await desk.getByRole("link", { name: "New quote" }).first().click();
    first = await sendReset(desk, [/^Main jet, large round/, /^Bowl and float/]);
    await sayYes(customer, first.link);
    await desk.goto("/s/saltpan/jobs");
    await desk
      .getByRole("link", { name: /^Job \d+/ })
      .first()
      .click();
    await expect(desk.getByRole("heading", { level: 1, name: /^Job \d+/ })).toBeVisible();
    job = new URL(desk.url()).pathname;
    await desk.getByRole("button", { name: "The bike is here" }).click();
    await desk.getByRole("button", { name: "Record the arrival" }).click();
    await expect(desk.getByRole("button", { name: "Record the arrival" })).toBeHidden();
  });

  await test.step("the tuner opens it up, cleans the bowl, and finds the hoses cracked", async () => {
    await tuner.goto(`${job}/card`);
    for (const title of [
      "Take off: seat and side covers",
      "Take off: tank",
      "Turn left: carburettor",
      "Take off: bowl",
      "Clean the bowl, measure the float",
    ])
      await pass(tuner, title);
    await tuner.getByRole("link", { name: "Found something" }).click();
    await tuner
      .getByRole("textbox", { name: /^What/ })
      .fill("Both vent hoses cracked through at the spigot.");
    await tuner.getByRole("button", { name: "Keep it" }).click();
    await expect(tuner).toHaveURL(/\/card/);
  });

  let planned = 0;
  let extra = { total: 0, link: "" };
  await test.step("the desk makes a variation of it and sends it; the customer says yes by the link", async () => {
    await desk.goto(job);
    planned = await plannedOf(desk);
    await expect(desk.getByText("Both vent hoses cracked through at the spigot.")).toBeVisible();
    await demandUsable(desk);
    await desk.getByRole("link", { name: "Quote it as a variation" }).click();
    extra = await sendReset(desk, [/^Vent hoses/]);
    await demandUsable(desk);
    await sayYes(customer, extra.link);
  });

  await test.step("the card is planned anew: nothing is opened twice, only the hoses' own minutes come to it", async () => {
    await desk.goto(job);
    await expect(desk.getByText("agreed", { exact: true })).toBeVisible();
    // Operation “Renew the vent hoses”: 12 minutes; what it needs is open already.
    expect(await plannedOf(desk)).toBe(planned + 12);
    const steps = await stepsOf(desk);
    for (const once of ["Take off: tank", "Turn left: carburettor", "Turn back: carburettor", "Test ride"])
      expect(steps.filter((step) => step === once)).toHaveLength(1);
    const hoses = steps.indexOf("Renew the vent hoses");
    expect(hoses).toBeGreaterThan(steps.indexOf("Clean the bowl, measure the float"));
    expect(hoses).toBeLessThan(steps.indexOf("Turn back: carburettor"));
    expect(steps.at(-1)).toBe("Test ride");
    await demandUsable(desk);
  });

  await test.step("the tuner goes on where the bike stands, through both works, to the ride", async () => {
    await tuner.goto(`${job}/card`);
    await expect(tuner.getByText("Step 6 of", { exact: false })).toBeVisible();
    await demandUsable(tuner);
    const seen: string[] = [];
    while ((await tuner.getByRole("link", { name: "Record the ride" }).count()) === 0) {
      const title = (await tuner.getByRole("heading", { level: 2 }).first().textContent()) ?? "";
      seen.push(title);
      await pass(tuner, title);
    }
    expect(seen.filter((title) => title.startsWith("Open:"))).toEqual([]);
    expect(seen).toContain("Renew the vent hoses");
    expect(seen).toContain("Fit the main jet");
    expect(seen.at(-1)).toBe("Put back: seat and side covers");
  });

  await test.step("the invoice as quoted adds both up", async () => {
    await desk.goto(`/s/saltpan/invoices/new?job=${job.split("/").at(-1)}`);
    const quoted = desk.locator("section").filter({ hasText: "As quoted: the agreed lines and variations" });
    await expect(
      quoted.getByText(/Renew the vent hoses.*\(variation \d+\)|\(variation \d+\)/).first(),
    ).toBeVisible();
    const total =
      (await quoted
        .getByText(/^Total/)
        .last()
        .locator("..")
        .textContent()) ?? "";
    expect(minorOf(total)).toBe(first.total + extra.total);
    await demandUsable(desk);
  });
  for (const one of ears) one.demandQuiet();
});
