import { type Browser, type BrowserContextOptions, expect, type Page, test } from "@playwright/test";
import { demandSmallAnswer } from "./answers";
import { fillStep, passUntilRide } from "./card";
import { pick } from "./fields";
import { signIn, type Who } from "./people";
import { sendIt } from "./quoting";
import { demandUsable, listen } from "./watched";
import { widths } from "./widths";

interface Hand {
  readonly page: Page;
  demandQuiet(): void;
}

async function hand(browser: Browser, size: BrowserContextOptions, who?: Who): Promise<Hand> {
  const page = await (await browser.newContext(size)).newPage();
  const ears = listen(page);
  if (who) await signIn(page, who);
  return { page, demandQuiet: ears.demandQuiet };
}

const SIZES = {
  "at a desk, 1280 wide": { viewport: { width: 1280, height: 900 } },
  "on a phone, 390 wide": { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
} as const;

for (const [where, size] of widths(SIZES, "on a phone, 390 wide"))
  test(`the whole job, from the first call to the follow-up, ${where}`, async ({ browser }) => {
    test.setTimeout(600_000);
    const owner = await hand(browser, size, "saltpanOwner");
    const { page } = owner;
    const name = `Wilhelmina Stroud ${Date.now() % 100_000}`;

    await test.step("a new customer with a bike", async () => {
      await page.goto("/s/saltpan/customers/new");
      await demandUsable(page);
      await page.getByRole("button", { name: "Add the customer" }).click();
      await expect(page.getByRole("textbox", { name: "Name", exact: true })).toHaveAttribute(
        "aria-invalid",
        "true",
      );
      await page.getByRole("textbox", { name: "Name", exact: true }).fill(name);
      await page.getByRole("textbox", { name: "Phone" }).fill("08 5550 0199");
      await page.getByRole("textbox", { name: "E-mail" }).fill("wil@customer.example");
      await page.getByRole("textbox", { name: "Address" }).fill("3 Samphire Road\nSaltpan Flat SA 5999");
      await page.getByRole("button", { name: "Add the customer" }).click();
      await expect(page.getByRole("heading", { level: 1, name })).toBeVisible();
      await demandUsable(page);
    });

    await test.step("its bike, with a model card", async () => {
      await page.getByRole("link", { name: "Add a bike" }).click();
      await expect(page.getByRole("heading", { level: 1, name: "New bike" })).toBeVisible();
      await demandUsable(page);
      await pick(page, "Model card", "drover 580");
      await page.getByRole("textbox", { name: "Plate" }).fill("S642 WIL");
      await page.getByRole("textbox", { name: "Year" }).fill("2004");
      await page.getByRole("textbox", { name: "Odometer" }).fill("38 400");
      await page
        .getByRole("textbox", { name: "What the owner complains of" })
        .fill("Flat spot at quarter throttle");
      await page.getByRole("button", { name: "Add the bike" }).click();
      await expect(page.getByRole("heading", { level: 1, name: /Tarrant Drover 580/ })).toBeVisible();
      await demandUsable(page);
    });

    await test.step("the settings as found, each known how", async () => {
      await page.getByRole("link", { name: "Record as found" }).first().click();
      await demandUsable(page);
      await page.getByRole("textbox", { name: "Main jet" }).fill("900");
      await page.getByRole("button", { name: "Record the sheet" }).click();
      await expect(page.getByText(/40 to 300/).first()).toBeVisible();
      for (const [setting, value] of Object.entries({
        "Main jet": "140",
        "Pilot jet": "45",
        "Clip position from top": "3",
        "Needle seat height": "2.70",
        "Mixture screw": "1.75",
        "Float height": "14",
        "Slide lift holes": "1",
        "Slide lift hole": "2.5",
        "Airbox opening": "0",
        "Idle speed": "1450",
      }))
        await page.getByRole("textbox", { name: setting, exact: true }).fill(value);
      await page.getByRole("combobox", { name: "Snorkel fitted", exact: true }).selectOption("yes");
      await page.getByRole("button", { name: "Record the sheet" }).click();
      await expect(page.getByRole("heading", { level: 1 })).not.toHaveText("Record as found");
      await demandUsable(page);
    });

    const bikePath = new URL(page.url()).pathname.replace(/\/sheets.*/, "");
    let customerLink = "";
    await test.step("a quote from a package, computed for this bike, sent for a yes", async () => {
      await page
        .getByRole("link", { name: /^Tarrant Drover 580/ })
        .first()
        .click();
      await page.getByRole("link", { name: "New quote" }).first().click();
      await demandUsable(page);
      await page.getByRole("radio", { name: /Open-road breathing/ }).check();
      await page.getByRole("button", { name: "Start the quote" }).click();
      await expect(page.getByRole("heading", { level: 1, name: /^Quote \d+/ })).toBeVisible();
      await expect(page.getByRole("button", { name: /^Main jet: \d/ })).toBeVisible();
      const total = page.getByText(/^Total AUD/).locator("..");
      const before = await total.textContent();
      const filter = page.getByRole("checkbox", { name: /Air filter renewed/ });
      await demandSmallAnswer(
        page,
        () => filter.check(),
        () => expect(total).not.toHaveText(before ?? ""),
      );
      await demandSmallAnswer(
        page,
        () => filter.uncheck(),
        () => expect(total).toHaveText(before ?? ""),
      );
      await filter.check();
      await expect(total).not.toHaveText(before ?? "");
      await page.getByRole("button", { name: /^Main jet: \d/ }).click();
      await expect(page.getByRole("dialog", { name: "Main jet" })).toContainText(/starting point/i);
      await page.keyboard.press("Escape");
      await demandUsable(page);
      customerLink = await sendIt(page);
      await demandUsable(page);
    });

    const customer = await hand(browser, SIZES["on a phone, 390 wide"]);
    await test.step("the customer reads it on a phone and says yes", async () => {
      await customer.page.goto(customerLink);
      await demandUsable(customer.page);
      await customer.page.getByRole("button", { name: "Accept this quote" }).click();
      await expect(customer.page.getByRole("textbox", { name: "Your full name" })).toHaveAttribute(
        "aria-invalid",
        "true",
      );
      for (const box of await customer.page
        .getByRole("group", { name: "Please read and tick" })
        .getByRole("checkbox")
        .all())
        await box.check();
      await customer.page.getByRole("textbox", { name: "Your full name" }).fill(name);
      await customer.page.getByRole("button", { name: "Accept this quote" }).click();
      await expect(
        customer.page.getByRole("heading", { name: "Thank you, this quote is accepted" }),
      ).toBeVisible();
      await demandUsable(customer.page);
    });

    let jobPath = "";
    await test.step("the job stands there, its parts reserved, and is booked into a bay", async () => {
      await page.goto("/s/saltpan/jobs");
      await demandUsable(page);
      await page
        .getByRole("link", { name: /^Job \d+/ })
        .first()
        .click();
      await expect(page.getByRole("heading", { level: 1, name: /^Job \d+/ })).toBeVisible();
      await expect(page.getByText(name).first()).toBeVisible();
      jobPath = new URL(page.url()).pathname;
      await expect(page.getByText(/reserved/i).first()).toBeVisible();
      await demandUsable(page);
      await page.getByRole("link", { name: "Book it in" }).click();
      await demandUsable(page);
      await page.getByRole("radio").first().check();
      await page.getByRole("button", { name: /^Book/ }).click();
      await expect(page.getByRole("heading", { level: 1 })).not.toHaveText(/^Book job/);
      await demandUsable(page);
    });

    await test.step("the bike arrives", async () => {
      await page.goto(jobPath);
      await page.getByRole("button", { name: "The bike is here" }).click();
      await page.getByRole("textbox", { name: "Odometer" }).fill("38420");
      await page.getByRole("button", { name: "Record the arrival" }).click();
      await expect(page.getByRole("link", { name: "Start work" })).toBeVisible();
    });

    const tuner = await hand(browser, size, "saltpanTuner");
    await test.step("the tuner works through the card, step by step", async () => {
      await tuner.page.goto(`${jobPath}/card`);
      await demandUsable(tuner.page);
      await tuner.page.getByRole("button", { name: /^(Start time|From job|Switch)/ }).click();
      await expect(tuner.page.getByRole("timer")).toBeVisible();
      const step = tuner.page.getByRole("heading", { level: 2 }).first();
      const first = (await step.textContent()) ?? "";
      const form = await fillStep(tuner.page);
      await demandSmallAnswer(
        tuner.page,
        () => form.getByRole("button", { name: "Pass and go on" }).click(),
        () => expect(step).not.toHaveText(first),
      );
      await passUntilRide(tuner.page, true);
      await demandUsable(tuner.page);
    });

    await test.step("the ride shows a fault, one correction is accepted, and the next ride is good", async () => {
      await tuner.page.goto(`${jobPath}/ride`);
      await demandUsable(tuner.page);
      const first = tuner.page.getByRole("group", { name: "Observation 1" });
      await first.getByRole("combobox", { name: "What it does" }).selectOption({ label: "hesitates" });
      await tuner.page.getByRole("button", { name: "Keep it and see what to change" }).click();
      await expect(tuner.page.getByText(/rule out/i).first()).toBeVisible();
      await demandUsable(tuner.page);
      await tuner.page.getByRole("button", { name: "Change this, and only this" }).click();
      await expect(tuner.page.getByRole("heading", { name: "What to change next: one thing" })).toBeHidden();
      await tuner.page.goto(`${jobPath}/card`);
      await passUntilRide(tuner.page, false);
      await tuner.page.getByRole("link", { name: "Record the ride" }).click();
      await tuner.page.getByRole("button", { name: "All good at every throttle position" }).click();
      await expect(tuner.page.getByText("all good", { exact: true }).first()).toBeVisible();
    });

    await test.step("as left is recorded, each value confirmed, and the bike is ready", async () => {
      await tuner.page.goto(jobPath);
      await demandUsable(tuner.page);
      await tuner.page.getByRole("link", { name: "Record as left" }).click();
      await demandUsable(tuner.page);
      await tuner.page.getByRole("button", { name: "The bike is ready" }).click();
      await expect(tuner.page.getByRole("main").getByRole("alert").first()).toBeVisible();
      await tuner.page.getByRole("combobox", { name: /^All values left/ }).selectOption("read");
      await tuner.page.getByRole("textbox", { name: "Odometer out" }).fill("38445");
      await tuner.page.getByRole("checkbox", { name: "I went through all of these on this bike" }).check();
      await tuner.page.getByRole("button", { name: "The bike is ready" }).click();
      await expect(tuner.page).not.toHaveURL(/\/finish$/);
      await tuner.page.goto(`${jobPath}/handover`);
      await demandUsable(tuner.page);
    });

    await test.step("it is invoiced as quoted, issued with a number, and paid", async () => {
      await page.goto(jobPath);
      await page.getByRole("link", { name: "Invoice" }).last().click();
      await expect(page.getByRole("heading", { level: 1, name: /invoice/i })).toBeVisible();
      await demandUsable(page);
      await page.getByRole("button", { name: "Record a deposit" }).click();
      await page.getByRole("textbox", { name: /^Amount/ }).fill("100.00");
      await page.getByRole("button", { name: "Record the deposit" }).click();
      await expect(page.getByRole("button", { name: "Record the deposit" })).toBeHidden();
      await page.getByRole("button", { name: "Draft it as quoted" }).click();
      await expect(page.getByRole("heading", { level: 1, name: /draft/i })).toBeVisible();
      await demandUsable(page);
      await page
        .getByRole("button", { name: /^Issue/ })
        .first()
        .click();
      await page.getByRole("button", { name: "Issue it for good" }).click();
      await expect(page.getByRole("heading", { level: 1, name: /^Invoice \d+/ })).toBeVisible();
      await demandUsable(page);
      const pdf = await page.request.get(`/api${new URL(page.url()).pathname}/pdf`);
      expect(pdf.headers()["content-type"]).toContain("application/pdf");
      expect((await pdf.body()).subarray(0, 5).toString()).toBe("%PDF-");
      await page.getByRole("button", { name: "Record a payment" }).click();
      await page.getByRole("button", { name: "Record the payment" }).click();
      await expect(page.getByText("paid", { exact: true }).first()).toBeVisible();
      await demandUsable(page);
    });

    await test.step("the job is closed, and the bike remembers it with a follow-up due", async () => {
      await page.goto(jobPath);
      await expect(page.getByText("closed", { exact: true }).first()).toBeVisible();
      await page.goto("/s/saltpan/follow-ups");
      await demandUsable(page);
      await page.goto(bikePath);
      await expect(page.getByText(/Ask how it runs/).first()).toBeVisible();
      await expect(page.getByRole("columnheader", { name: /^As left/ })).toBeVisible();
      await demandUsable(page);
    });

    for (const one of [owner, tuner, customer]) one.demandQuiet();
  });
