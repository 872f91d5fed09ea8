import { expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const BANK = "/s/saltpan/invoices/bank";
const LINES = 20;

/** What is to be paid, as the list of invoices says it: number and cents. */
async function openInvoices(page: Page): Promise<{ number: string; minor: number }[]> {
  await page.goto("/s/saltpan/invoices?state=unpaid");
  await expect(page.getByRole("heading", { name: "Invoices" })).toBeVisible();
  const rows = await page
    .locator("main tbody tr")
    .evaluateAll((found) =>
      found.map((row) => [...row.querySelectorAll("td,th")].map((cell) => cell.textContent ?? "")),
    );
  return rows.flatMap((cells) => {
    const number = /\d{4,}/u.exec(cells[0] ?? "")?.[0];
    const left = /([\d,]+\.\d\d)\D*$/u.exec(cells.at(-1) ?? "")?.[1];
    return number && left ? [{ number, minor: Math.round(Number(left.replaceAll(",", "")) * 100) }] : [];
  });
}

/** As many lines as are asked: each open invoice but the last paid exactly, the last in small pieces, and one that nobody knows. */
function listOf(open: readonly { number: string; minor: number }[]): string {
  const day = new Date(Date.now() - 3 * 86_400_000).toISOString().slice(0, 10);
  const [last, ...exact] = open;
  const rows = exact
    .slice(0, 8)
    .map((one) => `${day};${(one.minor / 100).toFixed(2)};Invoice ${one.number};`);
  while (last && rows.length < LINES - 1)
    rows.push(`${day};0.0${(rows.length % 8) + 1};part of ${last.number};`);
  return ["Date;Amount;Description;Payer", ...rows, `${day};0.99;raffle;Nobody Known`].join("\n");
}

test("a bank's list of twenty lines is taken in and matched on a phone: the certain ones at once, the others by one tap each", async ({
  browser,
}) => {
  const context = await browser.newContext({
    viewport: { width: 360, height: 780 },
    hasTouch: true,
    isMobile: true,
    baseURL: E2E.url,
  });
  const page = await context.newPage();
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  await page.goto(BANK);
  const before = await page.getByRole("listitem").filter({ hasText: "Another way" }).count();
  const open = await openInvoices(page);
  // The oldest two are in the demo's own list: the pieces are of the newest.
  expect(open.length).toBeGreaterThan(2);

  await page.goto(`${BANK}/new`);
  const file = { name: "november.csv", mimeType: "text/csv", buffer: Buffer.from(listOf(open)) };
  await page.getByLabel(/^CSV file of your bank/).setInputFiles(file);
  await expect(page.getByLabel("Days are written")).toHaveValue("ymd");
  await page.getByRole("button", { name: "Look at every row" }).click();
  await expect(page.getByText(`${LINES} lines are new`)).toBeVisible();
  await demandUsable(page);
  await page.getByRole("button", { name: `Take in ${LINES} lines` }).click();
  await expect(page.getByRole("heading", { name: "Bank", exact: true })).toBeVisible();
  await demandUsable(page);

  const all = page.getByRole("button", { name: /^Book (these \d+ lines|this line)$/ });
  if (await all.isVisible()) {
    await all.click();
    await expect(all).toBeHidden();
  }
  const pieces = page.getByRole("listitem").filter({ hasText: "part of" });
  for (let left = await pieces.count(); left > 0; left--) {
    await pieces.first().getByRole("button", { name: "Book it" }).click();
    await expect(pieces).toHaveCount(left - 1);
  }
  await page
    .getByRole("listitem")
    .filter({ hasText: "raffle" })
    .getByRole("link", { name: "Choose" })
    .click();
  await page.getByRole("radio", { name: "not for the shop" }).check();
  await demandUsable(page);
  await page.getByRole("button", { name: "Set it aside" }).click();
  await expect(page.getByText("Set aside.")).toBeVisible();
  expect(await page.getByRole("listitem").filter({ hasText: "Another way" }).count()).toBeLessThanOrEqual(
    before,
  );

  // The same file brings nothing again.
  await page.goto(`${BANK}/new`);
  await page.getByLabel(/^CSV file of your bank/).setInputFiles(file);
  await page.getByRole("button", { name: "Look at every row" }).click();
  await expect(page.getByText(`0 lines are new; ${LINES} are here already`)).toBeVisible();

  // The newest piece was booked in error: it waits again, and what it had paid is due again.
  await page.goto(`${BANK}?show=booked`);
  await demandUsable(page);
  await page.getByRole("button", { name: "Let it wait again" }).first().click();
  await page.getByRole("dialog").getByRole("button", { name: "Let it wait again" }).click();
  await expect(page.getByText("It waits again.", { exact: false })).toBeVisible();
  ears.demandQuiet();
  await context.close();
});
