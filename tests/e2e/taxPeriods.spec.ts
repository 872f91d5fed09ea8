import { expect, test } from "@playwright/test";
import { dayWords } from "@/lib/domain/schedule/days";
import { E2E } from "../support/e2eServer";
import { typeDate } from "./fields";
import { Hand } from "./hand";
import { demandUsable, listen } from "./watched";

test("a sale stands in the tax summary, down to its receipt; a closed day refuses the next one until it is reopened, 360 wide", async ({
  browser,
}) => {
  const size = { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true };
  const page = await (await browser.newContext({ ...size, baseURL: E2E.url })).newPage();
  const ears = listen(page);
  const hand = new Hand(page);
  const stamp = Date.now();
  // A shop of its own: closing its books is nobody else's business.
  await page.goto("/signup");
  await hand.fill("Your name", "Ottilie Brask");
  await hand.fill("Email", `books-${stamp}@shop.example`);
  await hand.fill("Password", "three words, seated");
  await hand.fill("Shop name", `Brask Books ${stamp}`);
  await hand.choose("Country", "Australia");
  await hand.button("Open the shop");
  await expect(page).toHaveURL(/^[^?]*\/s\/brask-books[^/]*$/);
  const home = new URL(page.url()).pathname;
  const zoned = new Intl.DateTimeFormat("en-CA", { timeZone: "Australia/Sydney" });
  const today = zoned.format(new Date());

  await page.goto(`${home}/shop/settings`);
  await page.getByLabel("Address", { exact: true }).fill("1 Salt Road");
  await page.locator('[name="taxNumber"]').fill("51 824 753 556");
  await hand.button("Save settings");
  await expect(page.getByText("Settings saved.")).toBeVisible();
  await expect(page.getByText("Papers say: ABN 51 824 753 556")).toBeVisible();
  await page.goto(`${home}/stock/new`);
  await hand.fill("Code", "MJ-130");
  await hand.fill("Name", "Main jet 130");
  await hand.choose("Kind", "other");
  await hand.fill("On hand now", "10");
  await page.getByRole("textbox", { name: "Price", exact: true }).fill("11.00");
  await hand.button("Add the part");
  await expect(page).toHaveURL(/\/stock\/\d+$/);

  const scanned = async () => {
    await page.goto(`${home}/counter`);
    await page.getByLabel("Code, size or words").fill("MJ-130");
    await page.getByLabel("Code, size or words").press("Enter");
    await expect(page.getByText("MJ-130 added.")).toBeVisible();
    await hand.button("Sell and print");
  };
  await scanned();
  await expect(page.getByRole("heading", { name: /^Receipt \d+$/ })).toBeVisible();

  // Issued and paid at once: 11.00 with a 1/11th of GST on either basis.
  for (const basis of ["issued", "paid"]) {
    await page.goto(`${home}/books/tax?by=12&basis=${basis}`);
    const row = page.getByRole("row").filter({ hasText: "GST 10" });
    for (const figure of ["10.00", "1.00", "11.00"])
      await expect(row.getByText(figure, { exact: true })).toBeVisible();
    await expect(page.getByText("Only sales are in here")).toBeVisible();
  }
  await demandUsable(page);
  await page.getByRole("link", { name: /^GST 10/ }).click();
  await page.getByRole("link", { name: /^Receipt \d+, payment$/ }).click();
  await expect(page.getByRole("heading", { name: /^Receipt \d+/ })).toBeVisible();

  await page.goto(`${home}/books/periods`);
  await typeDate(page, "Up to and with", today);
  await hand.fill("Note, if any", "Reported");
  await demandUsable(page);
  await hand.button("Close the period");
  await expect(page.getByText("Reported", { exact: false }).first()).toBeVisible();
  await scanned();
  await expect(
    page.getByText(`the books are closed up to ${dayWords(today, "en-AU")}`).first(),
  ).toBeVisible();
  await expect(page.getByText(/^Issue it on .* or later/).first()).toBeVisible();

  await page.goto(`${home}/books/periods`);
  await hand.button("Reopen");
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("Why").fill("One more sale");
  await demandUsable(page);
  await dialog.getByRole("button", { name: "Reopen the period" }).click();
  await expect(page.getByText(/One more sale/).first()).toBeVisible();
  await scanned();
  await expect(page.getByRole("heading", { name: /^Receipt \d+$/ })).toBeVisible();
  ears.demandQuiet();
});
