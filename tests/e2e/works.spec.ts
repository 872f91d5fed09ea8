import { type Browser, type BrowserContextOptions, expect, test } from "@playwright/test";
import { signIn } from "./people";
import { arrive, workAndFinish } from "./plainJob";
import { minor, newBike, sendIt } from "./quoting";
import { demandUsable, listen } from "./watched";
import { widths } from "./widths";

const SIZES = {
  "at a desk, 1280 wide": { viewport: { width: 1280, height: 900 } },
  "on a phone, 390 wide": { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
} as const;

async function owner(browser: Browser, size: BrowserContextOptions) {
  const page = await (await browser.newContext(size)).newPage();
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  return { page, ...ears };
}

for (const [where, size] of widths(SIZES, "at a desk, 1280 wide"))
  test(`a chain is quoted without a package, accepted and done without a ride, ${where}`, async ({
    browser,
  }) => {
    const { page, demandQuiet } = await owner(browser, size);
    const customer = await (await browser.newContext(size)).newPage();
    const bike = await newBike(page, `Perpetua Lind ${Date.now() % 100_000}`, "SP CHAIN");
    let job = "";

    await test.step("the quote says what is missing, and where to put it right", async () => {
      await page.goto(`/s/saltpan/quotes/new?bike=${bike.split("/").at(-1)}`);
      await demandUsable(page);
      await page.getByRole("button", { name: "Start without a package" }).click();
      await expect(page.getByRole("heading", { level: 1, name: /^Quote \d+/ })).toBeVisible();
      await expect(page.getByRole("list", { name: "Not to be sent yet" })).toContainText(
        "Nothing is on this quote yet.",
      );
      await expect(page.getByRole("button", { name: "Send for a yes" })).toBeDisabled();
      await demandUsable(page);
    });

    await test.step("a work is written with its time and a part, and a text beside it", async () => {
      await page.getByRole("link", { name: "Write a work" }).click();
      await demandUsable(page);
      await page.getByRole("textbox", { name: "What is done" }).fill("Chain renewed");
      await page.getByRole("textbox", { name: "What the customer reads" }).fill("A new chain, riveted.");
      await page.getByRole("textbox", { name: "Minutes", exact: true }).fill("48");
      await page.getByRole("combobox", { name: "Code or family" }).fill("CLEAN-C");
      await page.getByRole("textbox", { name: "Quantity" }).fill("20");
      await page.getByRole("button", { name: "Put it on the quote" }).click();
      await expect(page.getByText("Chain renewed").first()).toBeVisible();
      await page.getByRole("link", { name: "Add a text" }).click();
      await page.getByRole("textbox", { name: "Heading" }).fill("As we spoke");
      await page.getByRole("textbox", { name: "Words" }).fill("The sprockets are still good.");
      await page.getByRole("button", { name: "Put it on the quote" }).click();
      await page.getByRole("button", { name: "Up As we spoke" }).click();
      await expect(page.getByRole("listitem").filter({ hasText: "As we spoke" }).first()).toBeVisible();
      await demandUsable(page);
    });

    await test.step("the customer reads the works and says yes", async () => {
      await page.waitForLoadState("networkidle");
      const link = await sendIt(page);
      await customer.goto(link);
      await demandUsable(customer);
      await expect(customer.getByText("The sprockets are still good.")).toBeVisible();
      await expect(customer.getByText("A new chain, riveted.")).toBeVisible();
      await customer.getByRole("textbox", { name: "Your full name" }).fill("Perpetua Lind");
      await customer.getByRole("button", { name: "Accept this quote" }).click();
      await expect(
        customer.getByRole("heading", { name: "Thank you, this quote is accepted" }),
      ).toBeVisible();
    });

    await test.step("the job is one step, with no ride and no sheet at its end", async () => {
      await page.reload();
      await page.getByRole("link", { name: /^To job \d+/ }).click();
      await expect(page.getByRole("heading", { level: 1, name: /^Job \d+/ })).toBeVisible();
      job = new URL(page.url()).pathname;
      await expect(page.getByText("Test ride")).toHaveCount(0);
      await arrive(page);
      await workAndFinish(page, job);
      await page.goto(`${job}/handover`);
      await expect(page.getByRole("heading", { level: 1, name: "Handover" })).toBeVisible();
      await demandUsable(page);
    });
    demandQuiet();
  });

for (const [where, size] of widths(SIZES, "on a phone, 390 wide"))
  test(`an hour's look is opened by word and paid, and a comeback of it closes free, ${where}`, async ({
    browser,
  }) => {
    const { page, demandQuiet } = await owner(browser, size);
    const name = `Cosima Rook ${Date.now() % 100_000}`;
    const bike = await newBike(page, name, "SP LOOK");
    let job = "";

    await test.step("from the phone: who said yes, up to what", async () => {
      await page.getByRole("link", { name: "Open a job" }).click();
      await demandUsable(page);
      await page.getByRole("textbox", { name: "In a few words" }).fill("Have a look: stalls when hot");
      await page.getByRole("textbox", { name: "Minutes planned" }).fill("60");
      await page.getByRole("button", { name: "Open the job" }).click();
      await expect(page.getByText("Say up to which amount.").first()).toBeVisible();
      await page.getByRole("textbox", { name: /^Up to/ }).fill("400");
      await page.getByRole("button", { name: "Open the job" }).click();
      await expect(page.getByRole("heading", { level: 1, name: /^Job \d+/ })).toBeVisible();
      job = new URL(page.url()).pathname;
      await expect(page.getByText("Agreement: agreed by word")).toBeVisible();
      await expect(page.getByText(/up to .*400\.00/)).toBeVisible();
      await demandUsable(page);
    });

    await test.step("more is added inside the amount, and nothing past it", async () => {
      await page.getByRole("button", { name: "Add work or parts" }).click();
      await page.getByRole("textbox", { name: "What", exact: true }).fill("Plugs out and looked at");
      await page.getByRole("textbox", { name: "Minutes", exact: true }).fill("6000");
      await page.getByRole("button", { name: "Add it" }).click();
      await expect(page.getByText(/agreed up to .*400\.00/).first()).toBeVisible();
      await page.getByRole("textbox", { name: "Minutes", exact: true }).fill("15");
      await page.getByRole("button", { name: "Add it" }).click();
      await expect(page.getByRole("button", { name: "Add it" })).toBeHidden();
      await expect(page.getByRole("row", { name: /Plugs out and looked at/ }).first()).toBeVisible();
    });

    await test.step("it is worked, finished, invoiced and paid", async () => {
      await arrive(page);
      await workAndFinish(page, job);
      await page.goto(job);
      await page.getByRole("link", { name: "Invoice" }).last().click();
      await page.getByRole("button", { name: "Draft it as quoted" }).click();
      await expect(page.getByRole("heading", { level: 1, name: /draft/i })).toBeVisible();
      await page
        .getByRole("button", { name: /^Issue/ })
        .first()
        .click();
      await page.getByRole("button", { name: "Issue it for good" }).click();
      await expect(page.getByRole("heading", { level: 1, name: /^Invoice \d+/ })).toBeVisible();
      const total = await page
        .getByText(/^Total AUD/)
        .locator("..")
        .first()
        .textContent();
      expect(minor(total)).toBeGreaterThan(0);
      expect(minor(total)).toBeLessThanOrEqual(40_000);
      await page.getByRole("button", { name: "Record a payment" }).click();
      await page.getByRole("button", { name: "Record the payment" }).click();
      await expect(page.getByText("paid", { exact: true }).first()).toBeVisible();
    });

    await test.step("it comes back, is charged nothing, and closes without an invoice", async () => {
      await page.goto(bike);
      await page.getByRole("link", { name: "Open a job" }).click();
      await page.getByRole("textbox", { name: "In a few words" }).fill("Still stalls");
      await page.getByRole("radio", { name: /^A comeback/ }).check();
      await page.getByRole("textbox", { name: "Why" }).fill("We overlooked the vent hose");
      await demandUsable(page);
      await page.getByRole("button", { name: "Open the job" }).click();
      await expect(page.getByText("Agreement: comeback")).toBeVisible();
      await expect(page.getByText("We overlooked the vent hose")).toBeVisible();
      const back = new URL(page.url()).pathname;
      await arrive(page);
      await workAndFinish(page, back);
      await page.goto(back);
      await demandUsable(page);
      await page.getByRole("button", { name: "Close without an invoice" }).click();
      await expect(page.getByText("closed", { exact: true }).first()).toBeVisible();
      await page.goto("/s/saltpan/figures");
      await expect(page.getByText(/^Comebacks in twelve months/)).toBeVisible();
      await demandUsable(page);
    });
    demandQuiet();
  });
