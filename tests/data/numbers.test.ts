import { beforeEach, describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { mailInvoice } from "@/lib/data/invoices/links";
import { listInvoices } from "@/lib/data/invoices/list";
import { newOrderIn } from "@/lib/data/orders/draft";
import { shownQuote } from "@/lib/data/quotes/shown";
import { sell } from "@/lib/data/sales/sell";
import { searchAll } from "@/lib/data/search/search";
import { beginSeries, numberSeries } from "@/lib/data/shop/numbers";
import type { ShopHandle } from "@/lib/db/shop";
import { invoicesCsv } from "@/lib/documents/csv";
import { gapIn, numberDue, numberIn, writtenNumber } from "@/lib/domain/numbers/series";
import { FirstNumberSchema, NUMBERED, NUMBERED_KINDS, type NumberedKind } from "@/lib/schemas/numbers";
import { atOnce } from "../support/atOnce";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { readyToQuote, sentQuote, yes } from "../support/quotes";
import { line, partToSell, saleOf } from "../support/sales";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

const nextOf = async (shop: ShopHandle, kind: NumberedKind) =>
  (await numberSeries(shop)).find((one) => one.kind === kind);

/** One document of every kind; answers their numbers. */
async function oneOfEach(shop: ShopHandle): Promise<Record<NumberedKind, number | null>> {
  const { jobId } = await readyJob(shop);
  const invoiceId = await issuedInvoice(shop, jobId);
  const creditId = await creditInvoice(shop, { id: invoiceId, reason: "Wrong bike" });
  const part = await partToSell(shop);
  await sell(shop, saleOf([line(part, 1, 84_200)], { method: "card" }));
  const supplier = await shop.write((tx) =>
    tx.supplier.create({
      data: { name: "Harrow Brass", searchKey: "harrow brass", createdAt: shop.now },
    }),
  );
  await shop.write((tx) => newOrderIn(tx, shop, supplier.id));
  const newest = { orderBy: { id: "desc" } } as const;
  return {
    quote: (await shop.read.quote.findFirstOrThrow(newest)).sequence,
    job: (await shop.read.job.findFirstOrThrow(newest)).sequence,
    invoice: (await invoiceNow(shop, invoiceId)).number,
    creditNote: (await invoiceNow(shop, creditId)).number,
    receipt: (await shop.read.invoice.findFirstOrThrow({ where: { kind: "receipt" } })).number,
    order: (await shop.read.purchaseOrder.findFirstOrThrow(newest)).sequence,
  };
}

describe("a shop's own numbers", () => {
  it("are where its page says they begin, when nobody chose any", async () => {
    const said = Object.fromEntries((await numberSeries(a)).map((one) => [one.kind, one.next]));
    expect(said).toEqual(Object.fromEntries(NUMBERED_KINDS.map((kind) => [kind, NUMBERED[kind].first])));
    expect(await oneOfEach(a)).toEqual(said);
    expect((await numberSeries(a)).every((one) => one.begun)).toBe(true);
  });

  it("begin where its books ended, each kind by itself, in this shop alone, without a gap", async () => {
    for (const [at, kind] of NUMBERED_KINDS.entries())
      await beginSeries(a, { kind, first: 47_000 + at * 100 });
    expect(await oneOfEach(a)).toEqual({
      quote: 47_000,
      job: 47_100,
      invoice: 47_200,
      creditNote: 47_300,
      receipt: 47_400,
      order: 47_500,
    });
    const part = await partToSell(a);
    const sale = saleOf([line(part, 1, 84_200)], { method: "card" });
    await Promise.all(Array.from({ length: 5 }, () => sell(a, sale)));
    const receipts = await a.read.invoice.findMany({
      where: { kind: "receipt" },
      orderBy: { number: "asc" },
    });
    expect(receipts.map((one) => one.number)).toEqual([0, 1, 2, 3, 4, 5].map((more) => 47_400 + more));
    expect(await problemsOf(a)).toEqual([]);
    expect(await nextOf(b, "receipt")).toMatchObject({ next: 501, begun: false });
  });

  it("may be chosen anew until the first is issued, and not after it, also at the same moment", async () => {
    await beginSeries(a, { kind: "receipt", first: 9000 });
    await beginSeries(a, { kind: "receipt", first: 120 });
    expect(await nextOf(a, "receipt")).toMatchObject({ next: 120, begun: false });
    const part = await partToSell(a);
    const sale = saleOf([line(part, 1, 84_200)], { method: "card" });
    const [, late] = await Promise.allSettled([sell(a, sale), beginSeries(a, { kind: "receipt", first: 7 })]);
    const { number } = await a.read.invoice.findFirstOrThrow({ where: { kind: "receipt" } });
    expect(number).toBe(late.status === "fulfilled" ? 7 : 120);
    await expect(beginSeries(a, { kind: "receipt", first: 800 })).rejects.toThrow(/numbered already/);
    expect((await nextOf(a, "receipt"))?.next).toBe((number ?? 0) + 1);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("are whole, from 1, and no longer than the search knows", () => {
    for (const first of ["0", "-4", "1.5", "1234567890", "", "12a"])
      expect(FirstNumberSchema.safeParse({ kind: "quote", first }).success, first).toBe(false);
    expect(FirstNumberSchema.parse({ kind: "quote", first: " 999999999 " }).first).toBe(999_999_999);
  });
});

const paper = (shop: ShopHandle, id: number) =>
  shop.read.invoice.findUniqueOrThrow({
    where: { id },
    select: { number: true, written: true, frozen: true },
  });

describe("numbers with a prefix and a series for each year", () => {
  it("stand on the paper, in its mail, its file's name, the list of the books and the search, in this shop alone", async () => {
    for (const shop of [a, b]) {
      const other = shop === a ? b : a;
      await beginSeries(shop, { kind: "invoice", first: 42, prefix: "F-", yearly: true });
      await beginSeries(shop, { kind: "creditNote", first: 7, prefix: "KN" });
      const { jobId, ready } = await readyJob(shop);
      await shop.write((tx) =>
        tx.customer.update({ where: { id: ready.customerId }, data: { email: "ines@example.com" } }),
      );
      const id = await issuedInvoice(shop, jobId);
      const { written, number, frozen } = await paper(shop, id);
      expect([written, number]).toEqual(["F-2026-0042", 202_600_042]);
      const doc = storedInvoice(frozen);
      expect(doc.written).toBe("F-2026-0042");
      await mailInvoice(shop, { id, origin: "https://workshop.example" });
      expect(await shop.read.mail.findFirst({ orderBy: { id: "desc" } })).toMatchObject({
        subject: expect.stringContaining("F-2026-0042"),
        text: expect.stringContaining("F-2026-0042"),
      });
      expect(await shop.read.mailAttachment.findFirst({ orderBy: { id: "desc" } })).toMatchObject({
        name: "invoice-F-2026-0042.pdf",
      });
      const creditId = await creditInvoice(shop, { id, reason: "Wrong bike" });
      const credit = storedInvoice((await paper(shop, creditId)).frozen);
      expect([credit.written, credit.credits?.written]).toEqual(["KN7", "F-2026-0042"]);
      const csv = invoicesCsv([
        { doc, paidMinor: 0, creditedBy: credit.written, writtenOffMinor: 0 },
        { doc: credit, paidMinor: 0, creditedBy: null, writtenOffMinor: 0 },
      ]);
      expect(csv).toContain("F-2026-0042");
      expect(csv).toContain("KN7");
      const found = (q: string, where = shop) =>
        listInvoices(where, { q, state: undefined, after: undefined });
      expect((await found("F-2026-0042")).rows.map((row) => row.written)).toEqual(["F-2026-0042"]);
      expect((await found("kn7")).rows.map((row) => row.id)).toEqual([creditId]);
      expect((await searchAll(shop, "2026-0042")).flatMap((one) => one.hits)).toMatchObject([
        { noun: "invoices", label: "Invoice F-2026-0042" },
      ]);
      if (shop === a) expect((await found("F-2026", other)).rows).toEqual([]);
      await expect(creditInvoice(shop, { id, reason: "Once more" })).rejects.toThrow(
        "Invoice F-2026-0042 is already credited with KN7.",
      );
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("are those of quotes, jobs and orders too: on paper, in mails, files, calendars, what is said, and the search", async () => {
    for (const shop of [a, b]) {
      const other = shop === a ? b : a;
      await beginSeries(shop, { kind: "quote", first: 1052, prefix: "Q-" });
      await beginSeries(shop, { kind: "job", first: 7, prefix: "J", yearly: true });
      await beginSeries(shop, { kind: "order", first: 90, prefix: "PO-" });
      const ready = await readyToQuote(shop, 40);
      await shop.write((tx) =>
        tx.customer.update({ where: { id: ready.customerId }, data: { email: "ines@example.com" } }),
      );
      const sent = await sentQuote(shop, ready);
      const quote = await shop.read.quote.findUniqueOrThrow({ where: { id: sent.id } });
      expect([quote.number, quote.sequence]).toEqual(["Q-1052", 1052]);
      expect((await shownQuote(shop, sent.revisionId))?.printed.number).toBe("Q-1052");
      expect(await shop.read.mail.findFirst({ orderBy: { id: "desc" } })).toMatchObject({
        subject: expect.stringContaining("Q-1052"),
        text: expect.stringContaining("Q-1052"),
      });
      expect(await shop.read.mailAttachment.findFirst({ orderBy: { id: "desc" } })).toMatchObject({
        name: expect.stringContaining("Q-1052"),
      });
      const { jobId, jobNumber } = await acceptQuote(shop, yes(sent));
      expect(jobNumber).toBe("J2026-0007");
      const job = await shop.read.job.findUniqueOrThrow({ where: { id: jobId } });
      expect([job.number, job.sequence]).toEqual(["J2026-0007", 202_600_007]);
      await expect(acceptQuote(shop, { ...yes(sent), shownHash: "other" })).resolves.toMatchObject({
        again: true,
      });
      const supplier = await shop.write((tx) =>
        tx.supplier.create({ data: { name: "Marl", searchKey: "marl", createdAt: shop.now } }),
      );
      await shop.write((tx) => newOrderIn(tx, shop, supplier.id));
      const order = await shop.read.purchaseOrder.findFirstOrThrow({ orderBy: { id: "desc" } });
      expect([order.number, order.sequence]).toEqual(["PO-90", 90]);
      const found = async (text: string, where = shop) =>
        (await searchAll(where, text)).flatMap((one) => one.hits.map((hit) => hit.label));
      expect(await found("Q-1052")).toEqual(["Quote Q-1052"]);
      expect(await found("q1052")).toEqual(["Quote Q-1052"]);
      expect(await found("1052")).toEqual(["Quote Q-1052"]);
      expect(await found("J2026-0007")).toContain("Job J2026-0007");
      expect(await found("2026-0007")).toContain("Job J2026-0007");
      if (shop === a) expect(await found("1052", other)).toEqual([]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("begin at 1 in a new year of the shop's own zone, go on in the old one, and are never taken back by a clock", async () => {
    await beginSeries(a, { kind: "receipt", first: 9_998, prefix: "R", yearly: true });
    const part = await partToSell(a);
    const at = async (now: string, more: { earlier?: "on" } = {}) => {
      const id = await sell(as(a, { now: new Date(now) }), {
        ...saleOf([line(part, 1, 84_200)], { method: "card" }),
        ...more,
      });
      return (await a.read.invoice.findFirstOrThrow({ where: { saleId: id } })).written;
    };
    expect(await at("2026-12-31T01:00:00Z")).toBe("R2026-9998");
    // New Year's day in Adelaide, still the old year by UTC.
    expect(await at("2026-12-31T14:00:00Z")).toBe("R2027-0001");
    expect(await at("2027-01-02T00:00:00Z")).toBe("R2027-0002");
    expect(await at("2026-12-30T00:00:00Z", { earlier: "on" })).toBe("R2027-0003");
    expect(await problemsOf(a)).toEqual([]);
    expect(await nextOf(a, "receipt")).toMatchObject({ nextWritten: "R2027-0004" });
  });

  it("taken by two processes at once over a new year have no gap and none twice", async () => {
    await beginSeries(a, { kind: "receipt", first: 1, prefix: "R", yearly: true });
    const script = ["tests/support/numberMany.ts", a.database, "receipt", "60"];
    const [one, two] = await atOnce<{ written: string[] }>([script, script]);
    const all = [...(one?.written ?? []), ...(two?.written ?? [])].sort();
    const of = (year: number) => all.filter((written) => written.startsWith(`R${year}-`));
    const counted = (year: number) =>
      of(year).map((_, place) => `R${year}-${String(place + 1).padStart(4, "0")}`);
    expect(all).toHaveLength(120);
    expect([...of(2026), ...of(2027)]).toEqual([...counted(2026), ...counted(2027)]);
    expect(of(2027).length).toBeGreaterThanOrEqual(60);
  });

  it("have a short prefix of letters, digits and hyphens", () => {
    const typed = (more: Record<string, string>) =>
      FirstNumberSchema.safeParse({ kind: "invoice", first: "1", ...more }).success;
    for (const prefix of ["", "F", "F-", "INV-", "A1B", "ab-cd-ef"])
      expect(typed({ prefix }), prefix).toBe(true);
    for (const prefix of ["1F", "F1", "F/", "F 1", "ABCDEFGHI", "-F", "=F", "Å", "F_"])
      expect(typed({ prefix }), prefix).toBe(false);
    expect(typed({ yearly: "on", first: "99999" })).toBe(true);
    expect(typed({ yearly: "on", first: "100000" })).toBe(false);
    expect(typed({ kind: "quote", prefix: "Q-" })).toBe(true);
    expect(typed({ kind: "job", yearly: "on" })).toBe(true);
  });

  it("of a year run out after 99,999 and are refused then, whatever year it is", () => {
    const yearly = { prefix: "", yearly: true };
    expect(numberDue(yearly, numberIn(2026, 99_999), 2026)).toBe(202_699_999);
    expect(() => numberDue(yearly, numberIn(2026, 99_999) + 1, 2026)).toThrow(
      "The numbers of 2026 have run out",
    );
    expect(numberDue(yearly, numberIn(2026, 99_999) + 1, 2027)).toBe(202_700_001);
    expect(writtenNumber(yearly, numberIn(2026, 12_345))).toBe("2026-12345");
    expect(gapIn(yearly, [numberIn(2026, 5), numberIn(2026, 6), numberIn(2027, 1), numberIn(2029, 1)])).toBe(
      null,
    );
    expect(gapIn(yearly, [numberIn(2026, 5), numberIn(2027, 2)])).toBe(numberIn(2027, 2));
    expect(gapIn(yearly, [numberIn(2026, 5), numberIn(2026, 7)])).toBe(numberIn(2026, 7));
  });
});
