import { type Browser, type BrowserContextOptions, expect, test } from "@playwright/test";
import { signIn } from "./people";
import { arrive, workAndFinish } from "./plainJob";
import { newBike, sendIt } from "./quoting";
import { demandUsable, listen } from "./watched";

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

for (const [where, size] of Object.entries(SIZES)) {
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
}
