import { readFileSync } from "node:fs";
import { type Browser, expect, type Page, test } from "@playwright/test";
import { parse } from "csv-parse/sync";
import { XmlDocument } from "libxml2-wasm";
import { E2E } from "../support/e2eServer";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

const PHONE = { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true } as const;
const phone = async (browser: Browser) =>
  (await browser.newContext({ ...PHONE, baseURL: E2E.url, acceptDownloads: true })).newPage();

/** The text of the file that a link leads to. */
async function downloaded(page: Page, name: string): Promise<{ text: string; name: string }> {
  const coming = page.waitForEvent("download");
  await page.getByRole("link", { name, exact: true }).click();
  const file = await coming;
  return { text: readFileSync(await file.path(), "utf8"), name: file.suggestedFilename() };
}

/** Cents of an amount as pages of these shops write it: "1,234.50" or "1 234,50". */
const cents = (text: string) => Number(text.replaceAll(/[^\d]/g, ""));

const YEAR = new Date().getFullYear();

test("whoever keeps the books reads a month's journal to its invoice and takes it home as CSV, at 360", async ({
  browser,
}) => {
  const page = await phone(browser);
  const ears = listen(page);
  await signIn(page, "saltpanBooks");
  await page.goto("/s/saltpan/books");
  await expect(page.getByRole("heading", { name: "Accounts" })).toBeVisible();
  await demandUsable(page);
  await page.getByRole("link", { name: /^Journal/ }).click();
  await expect(page.getByRole("heading", { name: "Journal", exact: true })).toBeVisible();
  await page.goto(`/s/saltpan/books/journal?from=${YEAR - 1}-01-01&to=${YEAR}-12-31`);
  const said = /(\d+) entries, debits ([\d,.]+)/.exec((await page.locator("main").textContent()) ?? "");
  expect(Number(said?.[1])).toBeGreaterThan(5);
  const { text, name } = await downloaded(page, "Journal as CSV");
  expect(name).toMatch(/^journal-.*\.csv$/);
  const rows = parse(text, { columns: true, bom: true }) as Record<string, string>[];
  const sum = (column: string) =>
    rows.reduce((total, row) => total + Math.round(Number(row[column]) * 100), 0);
  expect([sum("debit"), sum("credit")]).toEqual([cents(said?.[2] ?? ""), cents(said?.[2] ?? "")]);
  expect(new Set(rows.map((row) => row.entry)).size).toBe(Number(said?.[1]));
  await demandUsable(page);

  const invoice = page.getByRole("link", { name: /^Invoice \d+ / }).first();
  const [number = ""] = /^Invoice \d+/.exec((await invoice.textContent()) ?? "") ?? [];
  await invoice.click();
  await expect(page.getByRole("heading", { name: new RegExp(`${number}$`) })).toBeVisible();
  await page.goBack();
  await page.getByRole("link", { name: "Trial balance" }).click();
  await expect(page.getByText("All accounts")).toBeVisible();
  await page.goto("/s/saltpan/books/documents");
  await expect(page.getByText("no number is missing.").first()).toBeVisible();
  // The floor stays closed to who keeps the books.
  expect((await page.request.get("/s/saltpan/counter")).status()).toBe(403);
  ears.demandQuiet();
});

test("the Norwegian shop's owner takes the audit file, which re-adds to the journal on the page", async ({
  browser,
}) => {
  const page = await phone(browser);
  await signIn(page, "fjellrevOwner");
  await page.goto(`/s/fjellrev/books/journal?from=${YEAR - 1}-01-01&to=${YEAR}-12-31`);
  const said = /(\d+) entries, debits ([\d\s,.]+)/u.exec((await page.locator("main").textContent()) ?? "");
  const { text, name } = await downloaded(page, "SAF-T Financial");
  expect(name).toMatch(/^SAF-T-Financial_312345676_.*\.xml$/);
  using doc = XmlDocument.fromString(text);
  const of = (path: string) => doc.root.find(path, { n: "urn:StandardAuditFile-Taxation-Financial:NO" });
  const total = (path: string) =>
    of(path).reduce((sum, one) => sum + Math.round(Number(one.content) * 100), 0);
  expect(of("//n:Transaction")).toHaveLength(Number(said?.[1]));
  const debit = cents(said?.[2] ?? "");
  expect([
    total("//n:DebitAmount/n:Amount"),
    total("//n:CreditAmount/n:Amount"),
    total("//n:TotalDebit"),
  ]).toEqual([debit, debit, debit]);
});
