import { readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";
import { XmlDocument, type XmlNode, XsdValidator } from "libxml2-wasm";
import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { listOwing } from "@/lib/data/chasing/owing";
import { moveCash } from "@/lib/data/endOfDay/moves";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { readBook } from "@/lib/data/ledger/chart";
import { everyEntry, journalEntries, journalPage, journalSums } from "@/lib/data/ledger/journal";
import {
  documentSeries,
  documentSums,
  everyDocument,
  everyPayment,
  paymentSums,
  registeredDocuments,
  stockWorth,
} from "@/lib/data/ledger/registers";
import { saftOf } from "@/lib/data/ledger/saft";
import {
  addAccount,
  changeAccount,
  chooseAccounts,
  removeAccount,
  saveBeginning,
} from "@/lib/data/ledger/save";
import { balanceOf, payFromBalance } from "@/lib/data/payments/balance";
import { recordBounced } from "@/lib/data/payments/bounced";
import { recordDeposit, recordPayment, recordRefund } from "@/lib/data/payments/record";
import { recordWriteOff } from "@/lib/data/payments/writeOff";
import { invoiceSale } from "@/lib/data/sales/fullInvoice";
import { takeBack } from "@/lib/data/sales/takeBack";
import type { ShopHandle } from "@/lib/db/shop";
import {
  balancesCsvParts,
  documentsCsvParts,
  journalCsvParts,
  LEDGER_LAYOUT,
  paymentsCsvParts,
  stockCsvParts,
} from "@/lib/documents/ledgerCsv";
import { saftEntries, saftHead, saftTransactions } from "@/lib/documents/saft";
import { AGES } from "@/lib/domain/chasing/age";
import { depositLeftOf } from "@/lib/domain/invoices/held";
import { outstanding } from "@/lib/domain/invoices/state";
import type { BookedEntry } from "@/lib/domain/ledger/book";
import { standardTaxCode } from "@/lib/domain/ledger/norwegian";
import { closed, dayToClose } from "../support/endOfDay";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { reference } from "../support/references";
import { line, partToSell, saleOf, sold } from "../support/sales";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

const day = "2026-11-25";
const ALL = { from: "2026-01-01", to: "2026-12-31" };
const card = { method: "card" as const, paidOn: day };
const transfer = { method: "transfer" as const, paidOn: day };
const cash = { method: "cash" as const, paidOn: day };

/** A month of a shop: deposits, part and over-payments, credits, a bounced card, a write-off, sales, one of them taken back. */
async function month(shop: ShopHandle, coin: number): Promise<void> {
  const first = await readyJob(shop);
  await recordDeposit(shop, { jobId: first.jobId, amountMinor: 5000, ...card });
  const one = await issuedInvoice(shop, first.jobId);
  await recordPayment(shop, {
    invoiceId: one,
    amountMinor: first.grossMinor - 5000 + 700,
    ...transfer,
    keepRest: true,
  });
  const second = await readyJob(shop, first.ready);
  const two = await issuedInvoice(shop, second.jobId);
  await payFromBalance(shop, { invoiceId: two });
  const paymentId = await recordPayment(shop, { invoiceId: two, amountMinor: 2000, ...card });
  await recordBounced(shop, { paymentId, paidOn: day, reference: "no cover" });
  await recordWriteOff(shop, { invoiceId: two, amountMinor: 1000, reference: "moved away" });
  // Paid in coins, then credited as a whole: the money is held, some of it goes back, the rest comes off the next invoice.
  const third = await readyJob(shop, first.ready);
  const three = await issuedInvoice(shop, third.jobId);
  const coins = Math.round(third.grossMinor / coin) * coin;
  await recordPayment(shop, { invoiceId: three, amountMinor: coins, ...cash });
  await creditInvoice(shop, { id: three, reason: "Wrong buyer" });
  await recordRefund(shop, { jobId: third.jobId, amountMinor: 3000, ...transfer, reference: "asked for it" });
  // Another deposit stays one.
  const fourth = await readyJob(shop, first.ready);
  await recordDeposit(shop, { jobId: fourth.jobId, amountMinor: 4000, ...card });
  const part = await partToSell(shop);
  const sale = await sold(shop, saleOf([line(part, 2, 84_200)]));
  await takeBack(shop, { saleId: sale.id, reason: "Not needed", method: "cash", back: [part] });
  const kept = await sold(shop, saleOf([line(part, 1, 84_200)], { method: "card" }));
  await invoiceSale(shop, { saleId: kept.id, customerId: first.ready.customerId });
}

beforeAll(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a, { cashRoundingMinor: 5 });
  await nameShop(b, { pricesIncludeTax: false, cashRoundingMinor: 100 });
  await month(a, 5);
  await month(b, 100);
});

async function collected<T>(all: AsyncIterable<T>): Promise<T[]> {
  const found: T[] = [];
  for await (const one of all) found.push(one);
  return found;
}

const closing = async (shop: ShopHandle) => {
  const { rows, book } = await journalSums(shop, ALL);
  return (use: keyof typeof book.chart.uses) =>
    rows.find((row) => row.account.code === book.chart.uses[use])?.closingMinor ?? Number.NaN;
};

describe("the journal", () => {
  it("has an entry for every document and every row of money, each of them balanced, in the order of days", async () => {
    for (const shop of [a, b]) {
      const entries = [];
      for await (const entry of journalEntries(shop, ALL)) entries.push(entry);
      for (const entry of entries) {
        expect(
          entry.lines.reduce((sum, one) => sum + one.minor, 0),
          entry.key,
        ).toBe(0);
        expect(entry.lines.length, entry.key).toBeGreaterThan(1);
      }
      const documents = await shop.read.invoice.count({ where: { state: "issued" } });
      const payments = await shop.read.payment.findMany({ select: { id: true, kind: true, method: true } });
      // Money that a balance gives and takes is one account at its outset: no line is left of it.
      const moving = payments.filter((row) => !(row.kind === "refund" && row.method === "balance"));
      expect(entries.filter((one) => one.journal === "document")).toHaveLength(documents);
      expect(entries.filter((one) => one.journal === "payment").map((one) => one.key)).toEqual(
        moving.map((row) => `payment ${row.id}`),
      );
    }
  });

  it("says of customers what their invoices say: owed, paid too much and held", async () => {
    for (const shop of [a, b]) {
      const of = await closing(shop);
      const invoices = await shop.read.invoice.findMany({
        where: { state: "issued", kind: { not: "creditNote" } },
      });
      const lefts = invoices.map((row) => outstanding({ ...row, credited: row.takenBack }));
      expect(of("receivable")).toBe(lefts.reduce((sum, left) => sum + Math.max(0, left), 0));
      expect(0 - of("customerBalance")).toBe(lefts.reduce((sum, left) => sum + Math.max(0, 0 - left), 0));
      const customers = await shop.read.customer.findMany({ select: { id: true } });
      const balances = await Promise.all(customers.map(({ id }) => balanceOf(shop, id)));
      expect(0 - of("customerBalance")).toBe(balances.reduce((sum, one) => sum + one, 0));
      const jobs = await shop.read.job.findMany({
        where: { invoices: { none: { kind: "invoice", state: "issued", takenBack: false } } },
        select: { payments: { select: { kind: true, amountMinor: true, roundingMinor: true } } },
      });
      const held = jobs.reduce((sum, job) => sum + depositLeftOf(job.payments), 0);
      expect(held).toBeGreaterThan(4000);
      expect(0 - of("deposits")).toBe(held);
    }
  });

  it("agrees with the aged list of who owes what, which is worked out from invoices and jobs", async () => {
    for (const shop of [a, b]) {
      const of = await closing(shop);
      const { sums } = await listOwing(shop, "2026-12-31");
      const aged = AGES.reduce((sum, age) => sum + (sums.columns[age] ?? 0), 0);
      expect(aged).toBeGreaterThan(0);
      expect(of("receivable")).toBe(aged);
      expect(of("receivable") + of("customerBalance") + of("deposits")).toBe(sums.totalMinor);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("has the tax, the income and the money that the documents and the payments have", async () => {
    for (const shop of [a, b]) {
      const of = await closing(shop);
      const total = await shop.read.invoice.aggregate({
        where: { state: "issued" },
        _sum: { taxMinor: true, netMinor: true },
      });
      expect(of("tax")).toBe(0 - (total._sum.taxMinor ?? 0));
      expect(of("workTaxed") + of("partsTaxed")).toBe(0 - (total._sum.netMinor ?? 0));
      expect(of("partsTaxed")).toBeLessThan(0);
      expect(of("writeOff")).toBe(1000);
      const money = await shop.read.payment.groupBy({
        by: ["method", "kind"],
        _sum: { amountMinor: true, roundingMinor: true },
      });
      for (const method of ["cash", "card", "transfer"] as const) {
        const moved = money
          .filter((row) => row.method === method)
          .reduce(
            (sum, { kind, _sum }) =>
              sum + (_sum.amountMinor ?? 0) * (["refund", "bounced"].includes(kind) ? -1 : 1),
            0,
          );
        expect(of(method), method).toBe(moved);
      }
    }
  });

  it("opens each entry at its document, and a page of it comes to what the whole does", async () => {
    const page = await journalPage(b, ALL);
    const { rows } = await journalSums(b, ALL);
    const entries = await collected(everyEntry(b, ALL));
    expect(page.entries).toBe(entries.length);
    const invoice = await b.read.invoice.findFirstOrThrow({ where: { kind: "invoice", state: "issued" } });
    expect(entries.find((one) => one.key === `document ${invoice.id}`)).toMatchObject({
      name: `Invoice ${invoice.written}`,
      source: { noun: "invoice", id: invoice.id },
    });
    const debit = entries.flatMap((one) => one.lines).reduce((sum, one) => sum + Math.max(0, one.minor), 0);
    expect(page.debitMinor).toBe(debit);
    expect(rows.reduce((sum, row) => sum + row.debitMinor, 0)).toBe(debit);
    expect((await journalPage(b, { from: "2027-01-01", to: "2027-01-31" })).rows).toEqual([]);
  });

  it("goes on in the next year with what is owed and held, income gone to the result of the years before", async () => {
    for (const shop of [a, b]) {
      const before = await journalSums(shop, ALL);
      const after = await journalSums(shop, { from: "2027-08-01", to: "2027-08-31" });
      const { priorResult } = before.book.chart.uses;
      for (const [at, row] of after.rows.entries()) {
        const { account, closingMinor } = before.rows[at] as (typeof before.rows)[number];
        if (account.kind === "income" || account.kind === "expense") expect(row.openingMinor).toBe(0);
        else if (account.code !== priorResult) expect(row.openingMinor, account.code).toBe(closingMinor);
      }
      expect(after.rows.reduce((sum, row) => sum + row.openingMinor, 0)).toBe(0);
    }
  });

  it("takes stock at cost where the shop wants it: the stock account is what the moves are worth", async () => {
    const seen = (await readBook(a)).version;
    const rest = { startsOn: null, yearMonth: 7, opening: {} };
    await saveBeginning(a, { ...rest, version: seen, stockToo: true });
    const of = await closing(a);
    const moves = await a.read.move.findMany();
    const worth = moves.reduce(
      (sum, row) => sum + Math.round(((row.unitCostE4 ?? 0) * row.quantityMilli) / 100_000),
      0,
    );
    expect(of("stock")).toBe(worth);
    expect(of("costOfGoods")).toBeGreaterThan(0);
    expect(await closing(b).then((one) => one("stock"))).toBe(0);
    await saveBeginning(a, { ...rest, version: seen + 1, stockToo: false });
  });
});

const rowsOf = async (parts: AsyncIterable<string>): Promise<Record<string, string>[]> => {
  const texts: string[] = [];
  for await (const text of parts) texts.push(text);
  return parse(texts.join(""), { columns: true, bom: true });
};
const minorOf = (rows: readonly Record<string, string>[], column: string) =>
  rows.reduce((sum, row) => sum + Math.round(Number(row[column] ?? "") * 100), 0);

describe("the files for the accountant", () => {
  it("add up, read by a strict reader, to what the pages say, with the columns of their layout", async () => {
    for (const [shop, currency] of [
      [a, "AUD"],
      [b, "NOK"],
    ] as const) {
      const sums = await journalSums(shop, ALL);
      const journal = await rowsOf(journalCsvParts(journalEntries(shop, ALL), currency));
      expect(Object.keys(journal[0] ?? {})).toEqual(LEDGER_LAYOUT.journal.map((column) => column.name));
      expect([minorOf(journal, "debit"), minorOf(journal, "credit")]).toEqual([
        sums.debitMinor,
        sums.debitMinor,
      ]);
      const documents = await rowsOf(documentsCsvParts(everyDocument(shop, ALL), currency));
      const whole = await documentSums(shop, ALL);
      expect([
        documents.length,
        minorOf(documents, "net"),
        minorOf(documents, "tax"),
        minorOf(documents, "gross"),
      ]).toEqual([whole.count, whole.netMinor, whole.taxMinor, whole.grossMinor]);
      // The tax of the journal's income lines is the documents' tax.
      expect(minorOf(journal, "tax")).toBe(whole.taxMinor);
      const payments = await rowsOf(paymentsCsvParts(everyPayment(shop, ALL), currency));
      for (const { method, minor } of await paymentSums(shop, ALL))
        expect(
          minorOf(
            payments.filter((row) => row.method === method),
            "moved",
          ),
          method,
        ).toBe(minor);
      const balances = await rowsOf(balancesCsvParts(sums.rows, currency));
      expect([minorOf(balances, "closing"), minorOf(balances, "debit")]).toEqual([0, sums.debitMinor]);
    }
  });

  it("list every number of every series, and name a number that is missing", async () => {
    const [invoices, credits, receipts] = await documentSeries(a);
    expect([invoices?.first, credits?.first, receipts?.first]).toEqual(["2001", "301", "501"]);
    expect([invoices, credits, receipts].flatMap((one) => one?.problems ?? [])).toEqual([]);
    const page = await registeredDocuments(a, "invoice", ALL, 0, 2);
    const rest = await registeredDocuments(a, "invoice", ALL, page.next ?? 0, 50);
    expect([...page.rows, ...rest.rows].map((row) => row.number)).toEqual([2001, 2002, 2003, 2004]);
    expect(await documentSums(b, { from: "2025-01-01", to: "2025-12-31" })).toMatchObject({ count: 0 });
  });

  it("value stock at the end of a day, as the journal would", async () => {
    const parts = await stockWorth(a, "2026-12-31");
    const moves = await a.read.move.findMany();
    expect(parts.reduce((sum, part) => sum + part.quantityMilli, 0)).toBe(
      moves.reduce((sum, move) => sum + move.quantityMilli, 0),
    );
    const value = parts.reduce((sum, part) => sum + part.valueMinor, 0);
    expect(value).toBe(
      moves.reduce((sum, row) => sum + Math.round(((row.unitCostE4 ?? 0) * row.quantityMilli) / 100_000), 0),
    );
    expect(minorOf(await rowsOf(stockCsvParts(parts, "AUD")), "value")).toBe(value);
    expect(await stockWorth(a, "2025-12-31")).toEqual([]);
  });
});

describe("the drawer", () => {
  it("counted leaves on the cash account what stays in it; the difference and what left it stand on theirs", async () => {
    const before = await closing(a);
    await moveCash(a, { day, amountMinor: 2000, reason: "Change from the bank" });
    const open = await dayToClose(a);
    const sumMinor = open.expectedMinor - 20;
    await closed(a, { floatMinor: 0, sumMinor, leftMinor: 1500, reason: "Nobody knows" });
    const of = await closing(a);
    expect(of("cash")).toBe(1500);
    expect(of("cashDifference") - before("cashDifference")).toBe(20);
    expect(of("drawerMoves")).toBe(sumMinor - 1500 - 2000);
    expect((await journalSums(a, ALL)).rows.reduce((sum, row) => sum + row.closingMinor, 0)).toBe(0);
    expect(await b.read.endOfDay.count()).toBe(0);
  });
});

describe("the accounts of a shop", () => {
  it("are its country's at first, and its own from the first change on; the other shop's stay as they were", async () => {
    const before = await readBook(b);
    expect([before.source?.includes("NS 4102"), before.version]).toEqual([true, 1]);
    const account = { kind: "income", groupCategory: "salgsinntekt", groupCode: "3000" } as const;
    await addAccount(b, { ...account, code: "3025", name: "Arbeid på forgassere", version: 1 });
    await chooseAccounts(b, { version: 2, uses: { workTaxed: "3025" } });
    const book = await readBook(b);
    expect([book.source, book.version, book.chart.uses.workTaxed]).toEqual([null, 3, "3025"]);
    const { rows } = await journalSums(b, ALL);
    expect(rows.find((row) => row.account.code === "3025")?.closingMinor).toBeLessThan(0);
    expect((await readBook(a)).chart.accounts.some((one) => one.code === "3025")).toBe(false);
    await changeAccount(b, { ...account, code: "3026", was: "3025", name: "Arbeid", version: 3 });
    expect((await readBook(b)).chart.uses.workTaxed).toBe("3026");
  });

  it("refuse an old version, a code twice, an account that does not fit, and removing one that is used", async () => {
    const { version } = await readBook(b);
    const account = { kind: "asset", groupCategory: "", groupCode: "" } as const;
    await expect(
      addAccount(b, { ...account, code: "9", name: "x", version: version - 1 }),
    ).rejects.toMatchObject({
      kind: "conflict",
      message: expect.stringContaining("changed by someone else"),
    });
    await expect(addAccount(b, { ...account, code: "1500", name: "x", version })).rejects.toThrow(/already/);
    await expect(chooseAccounts(b, { version, uses: { tax: "1500" } })).rejects.toThrow(/does not fit/);
    await expect(chooseAccounts(b, { version, uses: { tax: "77" } })).rejects.toThrow(/no account 77/);
    await expect(removeAccount(b, { version, code: "1500" })).rejects.toThrow(/takes what customers owe/);
    const liability = { code: "1500", was: "1500", name: "x", groupCategory: "", groupCode: "" };
    await expect(changeAccount(b, { ...liability, kind: "liability", version })).rejects.toThrow(
      /does not fit/,
    );
    expect((await readBook(b)).version).toBe(version);
  });

  it("begin with opening balances that balance, from a day; nothing before it is booked", async () => {
    const { version } = await readBook(b);
    const input = { startsOn: "2026-11-25", yearMonth: 1, stockToo: false, version };
    await expect(saveBeginning(b, { ...input, opening: { "1920": 100_000 } })).rejects.toThrow(
      /more than credits/,
    );
    await expect(
      saveBeginning(b, { ...input, startsOn: null, opening: { "1920": 1, "2050": -1 } }),
    ).rejects.toThrow(/need their day/);
    await expect(saveBeginning(b, { ...input, startsOn: "2026-11-27", opening: {} })).rejects.toThrow(
      /not come/,
    );
    await saveBeginning(b, { ...input, opening: { "1920": 100_000, "2050": -100_000 } });
    const { rows, range } = await journalSums(b, ALL);
    expect(range.from).toBe("2026-11-25");
    expect(rows.find((row) => row.account.code === "1920")?.openingMinor).toBe(100_000);
    const later = as(b, { now: new Date("2026-12-05T08:00:00Z") });
    await saveBeginning(later, { ...input, version: version + 1, startsOn: "2026-12-01", opening: {} });
    expect((await journalSums(b, ALL)).entries).toBe(0);
    await saveBeginning(later, { ...input, version: version + 2, startsOn: null, opening: {} });
    expect((await journalSums(b, ALL)).entries).toBeGreaterThan(10);
  });
});

const xsd = reference("saft-no/Norwegian_SAF-T_Financial_Schema_v_1.30.xsd");
const codes = reference("saft-no/Standard_Tax_Codes.csv");

/** The file as the route sends it. */
async function saftText(shop: ShopHandle, range: typeof ALL): Promise<string> {
  const { head, entries } = await saftOf(shop, range);
  const write = (some: readonly BookedEntry[]) =>
    saftTransactions({ entries: some, currency: head.currency });
  const parts = [saftHead({ ...head, softwareVersion: "0.1.0" })];
  for await (const part of saftEntries(entries, write)) parts.push(part);
  return parts.join("");
}

/** Amounts and texts of a file by XPath, its namespace written as `n`. */
const reader = (doc: XmlDocument) => {
  const of = (path: string, from: XmlNode = doc.root) => from.find(path, { n: doc.root.namespaceUri });
  const texts = (path: string, from?: XmlNode) => of(path, from).map((one) => one.content);
  const minor = (path: string, from?: XmlNode) =>
    texts(path, from).reduce((sum, text) => sum + Math.round(Number(text) * 100), 0);
  return { of, texts, minor };
};

describe("the Norwegian audit file", () => {
  it("is refused to a shop under another regime, and where an account has no group of the tax office's", async () => {
    await expect(saftOf(a, ALL)).rejects.toMatchObject({ kind: "missing" });
    const { version } = await readBook(b);
    const account = {
      code: "9000",
      name: "Uten gruppe",
      kind: "expense",
      groupCategory: "",
      groupCode: "",
    } as const;
    await addAccount(b, { ...account, version });
    await expect(saftOf(b, ALL)).rejects.toThrow(/9000 has no group/);
    await removeAccount(b, { code: "9000", version: version + 1 });
  });

  it("re-adds to the journal: entries, debits, credits, each account and each customer", async () => {
    using doc = XmlDocument.fromString(await saftText(b, ALL));
    const { of, texts, minor } = reader(doc);
    const sums = await journalSums(b, ALL);
    expect(minor("//n:TotalDebit")).toBe(sums.debitMinor);
    expect(minor("//n:DebitAmount/n:Amount")).toBe(sums.debitMinor);
    expect(minor("//n:CreditAmount/n:Amount")).toBe(sums.debitMinor);
    expect(texts("//n:NumberOfEntries")).toEqual([String(sums.entries)]);
    expect(of("//n:Transaction")).toHaveLength(sums.entries);
    for (const transaction of of("//n:Transaction"))
      expect(minor(".//n:DebitAmount/n:Amount", transaction)).toBe(
        minor(".//n:CreditAmount/n:Amount", transaction),
      );
    for (const { account, ...row } of sums.rows) {
      const own = of(`//n:GeneralLedgerAccounts/n:Account[n:AccountID="${account.code}"]`)[0];
      const side = (when: string) =>
        minor(`n:${when}DebitBalance`, own) - minor(`n:${when}CreditBalance`, own);
      expect([side("Opening"), side("Closing")]).toEqual([row.openingMinor, row.closingMinor]);
      const line = `//n:Line[n:AccountID="${account.code}"]`;
      expect(
        side("Opening") + minor(`${line}/n:DebitAmount/n:Amount`) - minor(`${line}/n:CreditAmount/n:Amount`),
      ).toBe(side("Closing"));
    }
    // What customers owe on the account is what each of them owes.
    const { receivable } = sums.book.chart.uses;
    const balance = `//n:Customer/n:BalanceAccount[n:AccountID="${receivable}"]`;
    expect(minor(`${balance}/n:ClosingDebitBalance`) - minor(`${balance}/n:ClosingCreditBalance`)).toBe(
      sums.rows.find((row) => row.account.code === receivable)?.closingMinor,
    );
    // The tax of the income lines is what stands on the tax account.
    const tax = sums.rows.find((row) => row.account.code === sums.book.chart.uses.tax);
    expect(minor("//n:CreditTaxAmount/n:Amount") - minor("//n:DebitTaxAmount/n:Amount")).toBe(
      0 - (tax?.closingMinor ?? Number.NaN),
    );
    expect(texts("//n:DefaultCurrencyCode")).toEqual(["NOK"]);
    // The other shop's customers are not in it.
    const customers = await b.read.customer.findMany({
      where: {
        OR: [{ invoices: { some: { state: "issued" } } }, { jobs: { some: { payments: { some: {} } } } }],
      },
    });
    expect(of("//n:Customer")).toHaveLength(customers.length);
  });

  it.skipIf(!xsd)(
    "is valid by the published schema, and not once it is tampered with (skipped: schema absent)",
    async () => {
      const name = `Fenn & <Sønner>\u0001 ${"lang ".repeat(80)}`;
      await b.write((tx) =>
        tx.customer.updateMany({
          data: { name: name.slice(0, 300), address: "Havnegata 1\n9910 Bjørnevatn" },
        }),
      );
      const text = await saftText(b, ALL);
      using schema = XmlDocument.fromBuffer(readFileSync(xsd ?? ""));
      using validator = XsdValidator.fromDoc(schema);
      const valid = (xml: string) => {
        using doc = XmlDocument.fromString(xml);
        validator.validate(doc);
      };
      valid(text);
      valid(await saftText(b, { from: "2027-02-01", to: "2027-02-28" }));
      expect(text).toContain("<PostalCode>9910</PostalCode>");
      expect(() => valid(text.replace("<AccountType>GL", "<AccountType>AP"))).toThrow();
      expect(() => valid(text.replace(/<TransactionID>[^<]*<\/TransactionID>/, ""))).toThrow();
    },
  );

  it.skipIf(!codes)(
    "uses standard tax codes of the published list alone (skipped: list absent)",
    async () => {
      const list = readFileSync(codes ?? "", "utf8")
        .split(/\r?\n/)
        .map((row) => row.split(";")[0]);
      const sales = [2500, 1500, 1111, 1200].map((rateBp) => standardTaxCode({ category: "S", rateBp }));
      const others = ["Z", "E", "O", "AE", "G", "K"].map((category) =>
        standardTaxCode({ category, rateBp: 0 }),
      );
      expect([...sales, ...others].filter((code) => !list.includes(code))).toEqual([]);
      using doc = XmlDocument.fromString(await saftText(b, ALL));
      expect(reader(doc).texts("//n:StandardTaxCode")).toEqual(["3"]);
      expect(standardTaxCode({ category: "S", rateBp: 1000 })).toBe("NA");
    },
  );
});
