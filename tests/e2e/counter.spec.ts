import { expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { pick } from "./fields";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";
import { widths } from "./widths";

const SIZES = {
  "1280 wide": { viewport: { width: 1280, height: 900 } },
  "390 wide": { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
} as const;

/** To the counter in one tap from any page: on a phone the places open from the foot first. */
async function toTheCounter(page: Page, wide: boolean): Promise<void> {
  if (!wide) await page.getByText("Menu", { exact: true }).click();
  await page.getByRole("link", { name: "Counter", exact: true }).filter({ visible: true }).click();
  await expect(page.getByRole("heading", { name: "Counter" })).toBeVisible();
}

async function scan(page: Page, code: string): Promise<void> {
  const field = page.getByLabel("Code, size or words");
  await field.fill(code);
  await field.press("Enter");
  await expect(page.getByText(`${code} added.`)).toBeVisible();
}

for (const [where, size] of widths(SIZES, "390 wide")) {
  test(`two jets are sold over the counter in under 30 seconds and taken back, ${where}`, async ({
    browser,
  }) => {
    const page = await (await browser.newContext({ ...size, baseURL: E2E.url })).newPage();
    const ears = listen(page);
    await signIn(page, "saltpanDesk");
    await page.goto("/s/saltpan");
    const started = Date.now();
    await toTheCounter(page, size.viewport.width > 1000);
    await scan(page, "MH-125");
    await page.getByRole("button", { name: "One MH-125 more" }).click();
    await expect(page.getByLabel("How many")).toHaveValue("2");
    await page.getByLabel("Given, AUD").fill("50");
    await page.getByRole("button", { name: "Sell and print" }).click();
    await expect(page.getByRole("heading", { name: /^Receipt 5\d\d$/ })).toBeVisible();
    // What the issue of two jets may take at most.
    expect(Date.now() - started).toBeLessThan(30_000);
    await expect(page.getByText(/^Change/)).toBeVisible();
    await demandUsable(page);
    const [paper] = await Promise.all([
      page.waitForResponse((answer) => answer.url().includes("/pdf")),
      page.getByRole("link", { name: "Print the receipt" }).click(),
    ]);
    expect(paper.status()).toBe(200);

    await page.getByRole("button", { name: "Take it back" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByLabel("Why (printed on the credit note)").fill("Wrong size");
    await demandUsable(page);
    await dialog.getByRole("button", { name: "Take it back" }).click();
    await expect(page.getByText("taken back", { exact: true })).toBeVisible();
    await expect(page.getByRole("link", { name: /Credit note 30\d/ })).toBeVisible();
    await page.getByRole("link", { name: "Next sale" }).click();
    await scan(page, "MH-125");
    await demandUsable(page);
    ears.demandQuiet();
  });
}

test("what is wrong is said beside it, and nothing that was typed is lost", async ({ page }) => {
  await signIn(page, "saltpanDesk");
  await page.goto("/s/saltpan/counter");
  await scan(page, "MH-125");
  await page.getByLabel("How many").fill("99");
  await page.getByLabel("bank transfer").check();
  await page.getByRole("button", { name: "Sell and print" }).click();
  await expect(page.getByText(/of MH-125 is (?:on hand|not free)/)).toBeVisible();
  await expect(page.getByLabel("How many")).toHaveValue("99");
  await page.getByLabel("How many").fill("1");
  await page.getByLabel("Full tax invoice").check();
  await page.getByRole("button", { name: "Sell and print" }).click();
  await expect(page.getByText("A full invoice names its buyer: choose the customer.").first()).toBeVisible();
  await pick(page, "Customer", "a");
  await page.getByRole("button", { name: "Sell and print" }).click();
  await expect(page.getByRole("heading", { name: /^Invoice 2\d\d\d$/ })).toBeVisible();
});

test("the counter is for those who sell: the tuner and the books find it closed", async ({ page }) => {
  await signIn(page, "saltpanTuner");
  expect((await page.request.get("/s/saltpan/counter")).status()).toBe(403);
  expect((await page.request.get("/api/s/saltpan/counter/parts?code=MH-125")).status()).toBe(403);
  await page.goto("/s/saltpan");
  await expect(page.getByRole("link", { name: "Counter", exact: true })).toHaveCount(0);
});
