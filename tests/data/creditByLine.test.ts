import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { getCreditable } from "@/lib/data/invoices/creditable";
import { type CreditPart, creditPart } from "@/lib/data/invoices/creditPart";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { changeBasis } from "@/lib/data/invoices/draftJobs";
import { exportedInvoices } from "@/lib/data/invoices/export";
import { getInvoice } from "@/lib/data/invoices/get";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { listUnpaid } from "@/lib/data/invoices/list";
import { shownInvoice } from "@/lib/data/invoices/shown";
import { recordPayment, recordRefund } from "@/lib/data/payments/record";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import type { CreditAsk } from "@/lib/domain/invoices/creditLines";
import { invoiceNow, issuedInvoice, nameShop, readyJob, stateOf } from "../support/invoices";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

const day = "2026-11-25";
const card = { method: "card" as const, paidOn: day };

const docOf = async (shop: ShopHandle, id: number) => storedInvoice((await invoiceNow(shop, id)).frozen);

const credit = async (shop: ShopHandle, id: number, ask: CreditAsk, more: Partial<CreditPart> = {}) =>
  creditPart(shop, {
    id,
    version: (await invoiceNow(shop, id)).version,
    reason: "Agreed on the phone",
    ask,
    fates: {},
    corrected: false,
    ...more,
  });

const creditable = async (shop: ShopHandle, id: number) => {
  const found = await getCreditable(shop, id);
  if (!found) throw new Error("nothing left");
  return found;
};

/** A job's issued invoice whose part is really out of the drawer, and its dearest line. */
async function invoiced(shop: ShopHandle) {
  const { jobId } = await readyJob(shop);
  const part = await shop.read.part.findUniqueOrThrow({ where: { code: "BF-20" } });
  await recordMove(shop, { partId: part.id, kind: "use", quantityMilli: -2000, jobId });
  const draft = await draftInvoice(shop, { jobId, basis: "asWorked" });
  const { version } = await invoiceNow(shop, draft);
  await issueInvoice(shop, { id: draft, version });
  return { id: draft, jobId, part };
}

const onHand = async (shop: ShopHandle, id: number) =>
  (await shop.read.part.findUniqueOrThrow({ where: { id } })).onHandMilli;
const unpaid = async (shop: ShopHandle) => (await listUnpaid(shop)).outstandingMinor;

describe("an invoice credited by line", () => {
  it("is due for less, says so everywhere, and the part goes back to the drawer at what it cost", async () => {
    for (const shop of [a, b]) {
      const { id, part } = await invoiced(shop);
      const { grossMinor } = await invoiceNow(shop, id);
      const there = await onHand(shop, part.id);
      const { lines } = await creditable(shop, id);
      expect(lines).toMatchObject([
        { line: { key: "BF-20" }, leftMilli: 2000, part: { code: "BF-20", usedMilli: 2000 } },
      ]);
      const ask = { lines: [{ key: "BF-20", quantityMilli: 1000 }] };
      const creditId = await credit(shop, id, ask, { fates: { "BF-20": "back" } });
      const note = await docOf(shop, creditId);
      expect(note).toMatchObject({
        kind: "creditNote",
        number: 301,
        takes: [{ key: "BF-20", quantityMilli: 1000 }],
      });
      expect(note.lines).toMatchObject([{ key: "BF-20", quantityMilli: -1000 }]);
      // Half of two at 9.24 with 10 % GST inside; 8.40 and 25 % MVA on top of it.
      expect([note.netMinor, note.taxMinor, note.grossMinor]).toEqual(
        shop === a ? [-840, -84, -924] : [-840, -210, -1050],
      );
      const view = await getInvoice(shop, id);
      expect(view?.leftMinor).toBe(grossMinor + note.grossMinor);
      expect(view?.standing).toBe("partPaid");
      expect(await unpaid(shop)).toBe(grossMinor + note.grossMinor);
      expect(await shownInvoice(shop, id)).toMatchObject({
        leftMinor: grossMinor + note.grossMinor,
        creditedWith: "",
        credits: [{ written: "301", minor: 0 - note.grossMinor }],
      });
      expect(await onHand(shop, part.id)).toBe(there + 1000);
      const move = await shop.read.move.findFirstOrThrow({ orderBy: { id: "desc" } });
      expect(move).toMatchObject({ kind: "returnToStock", quantityMilli: 1000, why: "credited with 301" });
      const exported = [];
      for await (const one of exportedInvoices(shop, {}))
        exported.push([one.doc.kind, one.paidMinor, one.creditedBy]);
      expect(exported).toEqual([
        ["invoice", 0, "301"],
        ["creditNote", 0, null],
      ]);
      expect(await problemsOf(shop)).toEqual([]);
    }
    expect(await b.read.invoice.count({ where: { kind: "creditNote" } })).toBe(1);
  });

  it("never takes more of a line than was invoiced, also not twice at once; the last of it takes the invoice back", async () => {
    for (const shop of [a, b]) {
      const { id, jobId } = await invoiced(shop);
      const { version, grossMinor } = await invoiceNow(shop, id);
      const more = { lines: [{ key: "BF-20", quantityMilli: 1500 }] };
      const both = await Promise.allSettled([
        credit(shop, id, more, { version }),
        credit(shop, id, more, { version }),
      ]);
      expect(both.map((one) => one.status).sort()).toEqual(["fulfilled", "rejected"]);
      await expect(credit(shop, id, more)).rejects.toThrow(/has 0.5 each left to be credited, not 1.5/);
      await expect(credit(shop, id, { wholeMinor: 10_000_00 })).rejects.toThrow(/left to be credited/);
      expect((await invoiceNow(shop, id)).takenBack).toBe(false);
      await creditInvoice(shop, { id, reason: "The rest too" });
      const row = await invoiceNow(shop, id);
      expect([row.takenBack, row.paidMinor]).toEqual([true, grossMinor]);
      const notes = await shop.read.invoice.findMany({ where: { creditsId: id } });
      expect(notes.reduce((sum, one) => sum + one.grossMinor, 0)).toBe(0 - grossMinor);
      expect((await getInvoice(shop, id))?.standing).toBe("credited");
      await expect(creditInvoice(shop, { id, reason: "Again" })).rejects.toThrow(
        /already credited with 301, 302/,
      );
      await expect(credit(shop, id, more)).rejects.toThrow(/already credited/);
      expect(await getCreditable(shop, id)).toBeNull();
      await draftInvoice(shop, { jobId, basis: "fixed" });
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("is seen as it stands: an invoice that was changed meanwhile is not credited", async () => {
    const { id } = await invoiced(a);
    const { version } = await invoiceNow(a, id);
    await recordPayment(a, { invoiceId: id, amountMinor: 100, ...card });
    await expect(credit(a, id, { wholeMinor: 100 }, { version })).rejects.toThrow(/changed by someone else/);
    expect(await b.read.invoice.count()).toBe(0);
  });

  it("scraps what is not fit, and brings back no more than was used", async () => {
    const { id, part } = await invoiced(a);
    const there = await onHand(a, part.id);
    const ask = { lines: [{ key: "BF-20", quantityMilli: 1000 }] };
    await credit(a, id, ask, { fates: { "BF-20": "scrapped" } });
    expect(await onHand(a, part.id)).toBe(there);
    const moves = await a.read.move.findMany({ orderBy: { id: "desc" }, take: 2 });
    expect(moves.map((move) => [move.kind, move.quantityMilli])).toEqual([
      ["scrap", -1000],
      ["returnToStock", 1000],
    ]);
    await recordMove(a, {
      partId: part.id,
      kind: "returnToStock",
      quantityMilli: 1000,
      jobId: moves[0]?.jobId ?? 0,
    });
    await expect(credit(a, id, ask, { fates: { "BF-20": "back" } })).rejects.toThrow(
      /took no part out of stock/,
    );
    expect(await problemsOf(a)).toEqual([]);
  });

  it("paid in full before is paid too much: what goes back settles it, and its job stays closed", async () => {
    for (const shop of [a, b]) {
      const { id, jobId } = await invoiced(shop);
      const { grossMinor } = await invoiceNow(shop, id);
      await recordPayment(shop, { invoiceId: id, amountMinor: grossMinor, ...card });
      await credit(shop, id, { wholeMinor: 500 });
      const view = await getInvoice(shop, id);
      const back = 0 - (view?.leftMinor ?? 0);
      // 5.00 with its GST inside; 5.00 and 25 % on top of it.
      expect([view?.standing, back]).toEqual(["toPayBack", shop === a ? 500 : 625]);
      await recordRefund(shop, { jobId, amountMinor: back, reference: "Credited", ...card });
      expect([(await getInvoice(shop, id))?.standing, await stateOf(shop, jobId)]).toEqual([
        "paid",
        "closed",
      ]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("that leaves nothing to pay closes its job", async () => {
    const { id, jobId } = await invoiced(a);
    const { grossMinor } = await invoiceNow(a, id);
    await recordPayment(a, { invoiceId: id, amountMinor: grossMinor - 300, ...card });
    expect(await stateOf(a, jobId)).toBe("invoiced");
    await credit(a, id, { wholeMinor: 300 });
    expect([(await getInvoice(a, id))?.standing, await stateOf(a, jobId)]).toEqual(["paid", "closed"]);
  });
});

describe("a corrected invoice", () => {
  it("takes the whole invoice back and begins a draft with what stays, its money off it", async () => {
    for (const shop of [a, b]) {
      const { id, jobId, part } = await invoiced(shop);
      const before = await docOf(shop, id);
      const there = await onHand(shop, part.id);
      await recordPayment(shop, { invoiceId: id, amountMinor: 200, ...card });
      const ask = { lines: [{ key: "BF-20", quantityMilli: 500 }] };
      await expect(
        credit(shop, id, { lines: [{ key: "BF-20", quantityMilli: 2000 }] }, { corrected: true }),
      ).rejects.toThrow(/Nothing would be left/);
      const draft = await credit(shop, id, ask, { corrected: true });
      expect((await invoiceNow(shop, id)).takenBack).toBe(true);
      const view = await getInvoice(shop, draft);
      const shown = before.lines.reduce((sum, line) => sum + line.shownMinor, 0);
      expect(view?.doc?.lines).toMatchObject([
        { key: "BF-20", quantityMilli: 1500, shownMinor: (shown * 3) / 4 },
      ]);
      expect(view).toMatchObject({ state: "draft", corrects: before.written, doc: { prepaidMinor: 200 } });
      const { version } = await invoiceNow(shop, draft);
      await issueInvoice(shop, { id: draft, version });
      expect((await invoiceNow(shop, draft)).number).toBe(2002);
      expect(await stateOf(shop, jobId)).toBe("invoiced");
      expect(await onHand(shop, part.id)).toBe(there);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("is charged by its basis again once that is chosen", async () => {
    const { id } = await invoiced(a);
    const draft = await credit(a, id, { lines: [{ key: "BF-20", quantityMilli: 500 }] }, { corrected: true });
    const { version } = await invoiceNow(a, draft);
    await changeBasis(a, { id: draft, version, basis: "asWorked" });
    expect((await getInvoice(a, draft))?.doc?.lines).toMatchObject([{ key: "BF-20", quantityMilli: 2000 }]);
    expect((await getInvoice(a, draft))?.corrects).toBeNull();
  });
});

describe("an invoice of several jobs", () => {
  it("is credited off the whole job by job, and by one job's line", async () => {
    for (const shop of [a, b]) {
      const one = await readyJob(shop);
      const two = await readyJob(shop, one.ready);
      const id = await draftInvoice(shop, { jobId: one.jobId, basis: "fixed", also: [two.jobId] });
      await issueInvoice(shop, { id, version: (await invoiceNow(shop, id)).version });
      const whole = await docOf(shop, await credit(shop, id, { wholeMinor: 1001 }));
      expect(whole.lines.map((line) => line.job)).toEqual(["601", "602"]);
      expect(whole.lines.reduce((sum, line) => sum + line.shownMinor, 0)).toBe(-1001);
      const { lines } = await creditable(shop, id);
      const of602 = lines.find(({ line }) => line.job === "602");
      if (!of602) throw new Error("no line of the second job");
      const single = await docOf(
        shop,
        await credit(shop, id, { lines: [{ key: of602.line.key, amountMinor: 100 }] }),
      );
      expect(single.lines).toMatchObject([{ job: "602", shownMinor: -100 }]);
      const left = (await getInvoice(shop, id))?.leftMinor ?? 0;
      await recordPayment(shop, { invoiceId: id, amountMinor: left, ...card });
      expect([await stateOf(shop, one.jobId), await stateOf(shop, two.jobId)]).toEqual(["closed", "closed"]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("is corrected with each job's lines under its own job", async () => {
    for (const shop of [a, b]) {
      const one = await readyJob(shop);
      const two = await readyJob(shop, one.ready);
      const id = await draftInvoice(shop, { jobId: one.jobId, basis: "fixed", also: [two.jobId] });
      await issueInvoice(shop, { id, version: (await invoiceNow(shop, id)).version });
      const { lines } = await creditable(shop, id);
      const of602 = lines.find(({ line }) => line.job === "602");
      if (!of602) throw new Error("no line of the second job");
      const { leftMinor, line } = of602;
      const draft = await credit(
        shop,
        id,
        { lines: [{ key: line.key, amountMinor: leftMinor - 1 }] },
        { corrected: true },
      );
      const doc = (await getInvoice(shop, draft))?.doc;
      expect(doc?.lines.map((own) => own.job).sort()).toEqual(lines.map((own) => own.line.job).sort());
      expect(doc?.lines.find((own) => own.key === line.key)?.shownMinor).toBe(1);
      await issueInvoice(shop, { id: draft, version: (await invoiceNow(shop, draft)).version });
      expect(await problemsOf(shop)).toEqual([]);
    }
  });
});

it("a shop's invoice is not credited from the other shop", async () => {
  const { jobId } = await readyJob(a);
  const id = await issuedInvoice(a, jobId);
  await expect(
    creditPart(b, {
      id,
      version: 2,
      reason: "Other shop",
      ask: { wholeMinor: 1 },
      fates: {},
      corrected: false,
    }),
  ).rejects.toMatchObject({ kind: "missing" });
});
