import { expect, type Page, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const SHOP = "/s/saltpan";

/** The paid invoices of the first customer who has two of them on the list. */
async function twoOfOne(page: Page): Promise<string[]> {
  await page.goto(`${SHOP}/invoices?state=closed`);
  await expect(page.getByRole("heading", { name: "Invoices" })).toBeVisible();
  const rows = await page.locator("main tbody tr").evaluateAll((found) =>
    found.map((row) => ({
      href: row.querySelector("a[href*='/invoices/']")?.getAttribute("href") ?? "",
      cells: [...row.querySelectorAll("td,th")].map((cell) => cell.textContent ?? ""),
    })),
  );
  // Of a job, not of the counter: the third column names it.
  const named = rows.filter(({ cells }) => /^\s*\d+ \S/u.test(cells[2] ?? ""));
  const mine = [...Map.groupBy(named, ({ cells }) => cells[1]).values()].find((own) => own.length > 1) ?? [];
  return mine.slice(0, 2).map(({ href }) => href);
}

/** Takes an invoice back; answers the number of its job. */
async function credited(page: Page, href: string): Promise<string> {
  await page.goto(href);
  const job = (await page.locator("main a[href*='/jobs/']").first().textContent()) ?? "";
  await page.getByRole("button", { name: "Credit in full" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("Why (printed on the credit note)").fill("Both on one invoice");
  await dialog.getByRole("button", { name: "Credit it for good" }).click();
  await expect(page.getByRole("heading", { name: /^Credit note/ })).toBeVisible();
  return /\d+/.exec(job)?.[0] ?? "";
}

test("two jobs go on one invoice, which is paid in cash and by card at once and credited by line, on a desk and on a phone", async ({
  browser,
}) => {
  const page = await (
    await browser.newContext({ viewport: { width: 1280, height: 900 }, baseURL: E2E.url })
  ).newPage();
  const ears = listen(page);
  await signIn(page, "saltpanOwner");
  const hrefs = await twoOfOne(page);
  expect(hrefs).toHaveLength(2);
  const [second, first] = [await credited(page, hrefs[0] ?? ""), await credited(page, hrefs[1] ?? "")];

  await page.goto(hrefs[1] ?? "");
  await page.getByRole("link", { name: "Invoice the job again" }).click();
  const quoted = page.getByRole("form", { name: /^As quoted/ });
  await quoted.getByLabel(new RegExp(`^Job ${second}:`)).check();
  await demandUsable(page);
  await quoted.getByRole("button", { name: "Draft it as quoted" }).click();
  await expect(page.getByRole("heading", { name: "Invoice, draft" })).toBeVisible();
  const heads = () => page.locator("h3").filter({ hasText: /^Job \d+:/ });
  await expect(heads()).toHaveCount(2);
  await expect(heads().first()).toContainText(`Job ${first}:`);
  await demandUsable(page);

  await page.setViewportSize({ width: 390, height: 844 });
  await page.getByRole("button", { name: `Take job ${second} off` }).click();
  await expect(heads()).toHaveCount(0);
  await page.getByRole("button", { name: `Add job ${second} as quoted` }).click();
  await expect(heads()).toHaveCount(2);
  await demandUsable(page);
  await page.getByRole("button", { name: "Issue", exact: true }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Issue it for good" }).click();
  await expect(page.getByRole("heading", { name: /^Invoice \d+$/ })).toBeVisible();
  for (const job of [first, second])
    await expect(page.getByRole("link", { name: new RegExp(`^job ${job}$`, "i") })).toBeVisible();
  const [paper] = await Promise.all([
    page.waitForResponse((answer) => answer.url().includes("/pdf")),
    page.getByRole("link", { name: "PDF" }).click(),
  ]);
  expect(paper.status()).toBe(200);

  // Some of the money goes back and is due again: 60 dollars of it come in cash, 40 by card.
  await page.getByRole("button", { name: `Give money of job ${first} back` }).click();
  let dialog = page.getByRole("dialog");
  await dialog.getByLabel(/^Amount/).fill("100");
  await dialog.getByLabel("Why it goes back").fill("Paid too early");
  await dialog.getByRole("button", { name: "Record as given back" }).click();
  await page.getByRole("button", { name: "Record a payment" }).click();
  dialog = page.getByRole("dialog");
  await dialog.getByLabel("cash").check();
  await dialog.getByRole("button", { name: "Part of it another way" }).click();
  await dialog.getByLabel(/^Amount of that/).fill("40");
  await expect(dialog.getByLabel(/^Amount in cash/)).toHaveValue("60.00");
  await demandUsable(page);
  await dialog.getByRole("button", { name: "Record the payment" }).click();
  await expect(page.getByText("paid", { exact: true }).filter({ visible: true }).first()).toBeVisible();

  // Paid in full, and then 10 dollars come off one of its lines: they are to be paid back.
  await page.getByRole("link", { name: "Credit by line or amount" }).click();
  await expect(page.getByRole("heading", { name: /^Credit a part of invoice/ })).toBeVisible();
  await page.getByLabel("or amount off").first().fill("10");
  await expect(page.getByText("Then to pay back")).toBeVisible();
  await page.getByLabel("Why (printed on it)").fill("Scratched tank");
  await demandUsable(page);
  await page.setViewportSize({ width: 1280, height: 900 });
  await demandUsable(page);
  await page.getByRole("button", { name: "Credit it for good" }).click();
  await expect(page.getByRole("heading", { name: /^Credit note \d+$/ })).toBeVisible();
  await expect(page.getByText(/^Less for /).first()).toBeVisible();
  await page.getByRole("link", { name: /^invoice \d+$/ }).click();
  await expect(page.getByText("to pay back", { exact: true }).first()).toBeVisible();
  await page
    .getByRole("button", { name: /^Give money of job/ })
    .first()
    .click();
  dialog = page.getByRole("dialog");
  await expect(dialog.getByLabel(/^Amount/)).toHaveValue("10.00");
  await dialog.getByLabel("Why it goes back").fill("Credited");
  await dialog.getByRole("button", { name: "Record as given back" }).click();
  await expect(page.getByText("paid", { exact: true }).filter({ visible: true }).first()).toBeVisible();
  await expect(page.getByText(/^Credited with /)).toBeVisible();

  await page.goto(`${SHOP}/counter`);
  const field = page.getByLabel("Code, size or words");
  await field.fill("125");
  await field.press("Enter");
  await page
    .getByRole("button", { name: /^(?:Add|Sell|Put)/ })
    .first()
    .click();
  await page.getByLabel("Part of it another way").selectOption("card");
  await page.getByLabel(/^Of that/).fill("1");
  await expect(page.getByText("In cash")).toBeVisible();
  await demandUsable(page);
  await page.getByRole("button", { name: "Sell and print" }).click();
  await expect(page.getByRole("heading", { name: /^Receipt \d+$/ })).toBeVisible();
  ears.demandQuiet();
});
