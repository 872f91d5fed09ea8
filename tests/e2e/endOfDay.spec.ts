import { expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { pdfText } from "../support/pdfText";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const PHONE = { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true } as const;

/** What stands beside a name in the count: "1 580,00" is 1580. */
async function beside(page: Page, name: string): Promise<number> {
  const value = page.locator("dt", { hasText: name }).last().locator("xpath=following-sibling::dd");
  const text = (await value.textContent()) ?? "";
  return Number(
    text
      .replace("\u2212", "-")
      .replaceAll(/[^\d,-]/gu, "")
      .replace(",", "."),
  );
}

// Nobody else takes cash in this shop while the specs run: its day can be closed.
test("two parts are sold, the drawer is counted 1.00 short with a reason, and the day is closed once, at 360", async ({
  browser,
}) => {
  const page = await (await browser.newContext({ ...PHONE, baseURL: E2E.url })).newPage();
  const ears = listen(page);
  await signIn(page, "fjellrevOwner");
  await page.goto("/s/fjellrev/counter");
  const field = page.getByLabel("Code, size or words");
  await field.fill("SKR-J4");
  await field.press("Enter");
  await expect(page.getByText("SKR-J4 added.")).toBeVisible();
  await page.getByRole("button", { name: "One SKR-J4 more" }).click();
  await page.getByRole("button", { name: "Sell and print" }).click();
  await expect(page.getByRole("heading", { name: /^Receipt \d+$/ })).toBeVisible();
  await page.getByRole("link", { name: "Next sale" }).click();
  await page.getByRole("link", { name: "End of day" }).click();
  await expect(page.getByRole("heading", { name: "End of day" })).toBeVisible();

  await page.getByRole("button", { name: "Cash in or out" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("Amount, NOK").fill("20");
  await dialog.getByLabel("What for").fill("Frimerker");
  await demandUsable(page);
  await dialog.getByRole("button", { name: "Record it" }).click();
  await expect(page.getByText(/^Taken out: Frimerker/)).toBeVisible();

  await page.getByLabel("Float the drawer began with, NOK").fill("500");
  await page.getByLabel("One sum").check();
  const expected = await beside(page, "Should be there");
  await page.getByRole("textbox", { name: "In the drawer, NOK", exact: true }).fill(`${expected - 1},00`);
  expect(await beside(page, "Difference, NOK")).toBe(-1);
  await page.getByRole("button", { name: "Close the day" }).click();
  await expect(page.getByText("The drawer is 1,00 NOK short.").first()).toBeVisible();
  await expect(page.getByRole("textbox", { name: "In the drawer, NOK", exact: true })).toHaveValue(
    `${expected - 1},00`,
  );
  await page.getByLabel("Why it differs").fill("Ingen vet hvorfor");
  await demandUsable(page);
  await page.getByRole("button", { name: "Close the day" }).click();
  await expect(page.getByRole("heading", { name: /^End of \d/ })).toBeVisible();
  await expect(page.getByText("1,00 NOK short")).toBeVisible();
  await demandUsable(page);
  const href = await page.getByRole("link", { name: "Print the sheet" }).getAttribute("href");
  const sheet = await page.request.get(href ?? "");
  expect(sheet.status()).toBe(200);
  const text = await pdfText(new Uint8Array(await sheet.body()));
  expect(text).toContain("Differanse\u22121,00");
  expect(text).toContain("Grunn:Ingenvethvorfor");

  await page.goto("/s/fjellrev/books/day");
  await expect(page.getByText("Today is closed.")).toBeVisible();
  ears.demandQuiet();
});
