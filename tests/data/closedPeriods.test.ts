import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { creditPart } from "@/lib/data/invoices/creditPart";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { getInvoice, previewInvoice } from "@/lib/data/invoices/get";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { payFromBalance } from "@/lib/data/payments/balance";
import { recordBounced } from "@/lib/data/payments/bounced";
import { recordDeposit, recordPayment, recordRefund } from "@/lib/data/payments/record";
import { recordForSeveral } from "@/lib/data/payments/several";
import { recordWriteOff, takeWriteOffBack } from "@/lib/data/payments/writeOff";
import { invoiceSale } from "@/lib/data/sales/fullInvoice";
import { sell } from "@/lib/data/sales/sell";
import { takeBack } from "@/lib/data/sales/takeBack";
import { closeBooks, closedThrough, firstOpenDay, listClosings, reopenBooks } from "@/lib/data/shop/closing";
import type { ShopHandle } from "@/lib/db/shop";
import { may } from "@/lib/domain/access/permissions";
import { nodeArgs } from "../support/compiled";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { line, partToSell, saleOf } from "../support/sales";
import { as, twoShops } from "../support/shops";

const DAY = "2026-11-25";
const NEXT = "2026-11-26";
let a: ShopHandle;
let b: ShopHandle;
/** Shop a, a day later. */
let later: ShopHandle;
let of: Awaited<ReturnType<typeof madeBefore>>;

/** A shop's money before its books are closed: something of each kind that can be acted on. */
async function madeBefore(shop: ShopHandle) {
  const over = await readyJob(shop);
  const { ready } = over;
  const [open, waiting, off] = [
    await readyJob(shop, ready),
    await readyJob(shop, ready),
    await readyJob(shop, ready),
  ];
  const transfer = { method: "transfer" as const, paidOn: DAY };
  const overpaid = await issuedInvoice(shop, over.jobId);
  await recordPayment(shop, {
    invoiceId: overpaid,
    amountMinor: over.grossMinor + 700,
    keepRest: true,
    ...transfer,
  });
  const invoice = await issuedInvoice(shop, open.jobId);
  const bounces = await recordPayment(shop, {
    invoiceId: invoice,
    amountMinor: 900,
    reference: "2002",
    ...transfer,
  });
  await recordDeposit(shop, { jobId: waiting.jobId, amountMinor: 500, method: "card", paidOn: DAY });
  const draft = await draftInvoice(shop, { jobId: waiting.jobId, basis: "fixed" });
  const writtenOff = await issuedInvoice(shop, off.jobId);
  await recordWriteOff(shop, { invoiceId: writtenOff, amountMinor: 100, reference: "Goodwill" });
  const partId = await partToSell(shop);
  const sale = await sell(shop, saleOf([line(partId, 1, 84_200)]));
  return {
    customerId: ready.customerId,
    jobId: waiting.jobId,
    invoice,
    bounces,
    draft,
    writtenOff,
    partId,
    sale,
  };
}

beforeAll(async () => {
  ({ a, b } = await twoShops());
  later = as(a, { now: new Date(a.now.getTime() + 86_400_000) });
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
  of = await madeBefore(a);
  await closeBooks(a, { throughDay: DAY, reason: "November reported", seen: "" });
}, 60_000);

/** Every act that dates a document or money, on the day that is its own or on `paidOn`. */
const ACTS: Readonly<Record<string, (shop: ShopHandle, paidOn: string) => Promise<unknown>>> = {
  "a deposit": (shop, paidOn) =>
    recordDeposit(shop, { jobId: of.jobId, amountMinor: 100, method: "card", paidOn }),
  "a refund": (shop, paidOn) =>
    recordRefund(shop, { jobId: of.jobId, amountMinor: 100, method: "card", paidOn, reference: "Too much" }),
  "an issue": async (shop) =>
    issueInvoice(shop, { id: of.draft, version: (await invoiceNow(shop, of.draft)).version }),
  "a credit of a part": async (shop) =>
    creditPart(shop, {
      id: of.invoice,
      version: (await invoiceNow(shop, of.invoice)).version,
      reason: "Too dear",
      ask: { wholeMinor: 100 },
      fates: {},
      corrected: false,
    }),
  "a payment": (shop, paidOn) =>
    recordPayment(shop, { invoiceId: of.invoice, amountMinor: 200, method: "card", paidOn }),
  "a payment by two methods": (shop, paidOn) =>
    recordPayment(shop, {
      invoiceId: of.invoice,
      amountMinor: 200,
      method: "card",
      also: { method: "transfer", amountMinor: 100 },
      paidOn,
    }),
  "one payment for several": (shop, paidOn) =>
    recordForSeveral(shop, {
      customerId: of.customerId,
      invoices: [of.invoice],
      amountMinor: 100,
      method: "transfer",
      paidOn,
    }),
  "a payment from the balance": (shop) => payFromBalance(shop, { invoiceId: of.invoice }),
  "a write-off": (shop) =>
    recordWriteOff(shop, { invoiceId: of.invoice, amountMinor: 10, reference: "Rest" }),
  "a write-off taken back": (shop) => takeWriteOffBack(shop, { invoiceId: of.writtenOff, reference: "Paid" }),
  "a bounced payment": (shop, paidOn) =>
    recordBounced(shop, { paymentId: of.bounces, paidOn, reference: "Bank said so" }),
  "a sale": (shop) => sell(shop, saleOf([line(of.partId, 1, 84_200)])),
  "a full invoice for a sale": (shop) => invoiceSale(shop, { saleId: of.sale, customerId: of.customerId }),
  "a return": (shop) => takeBack(shop, { saleId: of.sale, reason: "Wrong size", method: "cash", back: [] }),
  "a whole credit": (shop) => creditInvoice(shop, { id: of.writtenOff, reason: "Wrong" }),
};

const counted = async (shop: ShopHandle) => [
  await shop.read.invoice.count({ where: { state: "issued" } }),
  await shop.read.payment.count(),
  await shop.read.move.count(),
  await shop.read.counter.findMany({ orderBy: { name: "asc" } }),
];

describe("a closed period", () => {
  it("lets nothing be dated in it, whichever way, says from when on, and leaves nothing half-done", async () => {
    const before = await counted(a);
    for (const [name, act] of Object.entries(ACTS)) {
      // The write-off has to be taken back before its invoice can be credited.
      if (name === "a whole credit") continue;
      await expect(act(a, DAY), name).rejects.toMatchObject({
        message: expect.stringMatching(/books are closed up to 25 Nov 2026/),
        remedy: expect.stringContaining("26 Nov 2026"),
      });
    }
    expect(await counted(a)).toEqual(before);
  });

  it("takes money that comes late on the first open day, which forms propose, and lets that day not be dated back", async () => {
    const early = { invoiceId: of.invoice, amountMinor: 50, method: "card" as const };
    await expect(recordPayment(later, { ...early, paidOn: "2026-11-02" })).rejects.toMatchObject({
      fields: { paidOn: "26 Nov 2026 is the first open day." },
    });
    expect(await firstOpenDay(a.read, DAY)).toBe(NEXT);
    expect([(await getInvoice(a, of.invoice))?.payOn, (await previewInvoice(a, of.jobId))?.payOn]).toEqual([
      NEXT,
      NEXT,
    ]);
    // Today is closed: money of today is of the first open day, and of no later one.
    await recordPayment(a, { ...early, paidOn: NEXT });
    await expect(recordPayment(a, { ...early, paidOn: "2026-11-27" })).rejects.toThrow(/not come yet/);
    expect(await firstOpenDay(b.read, DAY)).toBe(DAY);
  });

  it("is a matter of the day alone: the day after, each act goes through, and the other shop never noticed", async () => {
    for (const [name, act] of Object.entries(ACTS)) {
      await act(later, NEXT).catch((cause: Error) => expect.fail(`${name}: ${cause.message}`));
    }
    expect(await problemsOf(a)).toEqual([]);
    await sell(b, saleOf([line(await partToSell(b), 1, 84_200)]));
    expect(await listClosings(b)).toEqual([]);
  });

  it("is held by the database too, for a path that forgets to ask", async () => {
    const row = { method: "card", amountMinor: 1, jobId: of.jobId, at: a.now };
    const insert = (paidOn: string) => () =>
      a.write((tx) => tx.payment.create({ data: { ...row, kind: "deposit", paidOn } }));
    await expect(insert(DAY)()).rejects.toThrow(/closed period/);
    await expect(insert("2026-01-01")()).rejects.toThrow(/closed period/);
    const issued = (issuedOn: string) => () =>
      a.write((tx) =>
        tx.invoice.create({
          data: {
            kind: "receipt",
            state: "issued",
            number: 9_999,
            issuedOn,
            createdAt: a.now,
            jobId: of.jobId,
          },
        }),
      );
    await expect(issued(DAY)()).rejects.toThrow(/closed period/);
    const draft = await a.write((tx) =>
      tx.invoice.create({ data: { kind: "invoice", createdAt: a.now, jobId: of.jobId } }),
    );
    await expect(
      a.write((tx) =>
        tx.invoice.update({
          where: { id: draft.id },
          data: { state: "issued", number: 9_998, issuedOn: DAY },
        }),
      ),
    ).rejects.toThrow(/closed period/);
    await a.write((tx) => tx.invoice.delete({ where: { id: draft.id } }));
  });
});

describe("closing and reopening", () => {
  it("go forward and back only as they were seen, with a reason and a trail that only grows", async () => {
    const seen = DAY;
    const refused = (run: Promise<unknown>, why: RegExp) => expect(run).rejects.toThrow(why);
    await refused(
      closeBooks(later, { throughDay: DAY, reason: "", seen }),
      /closed up to 25 Nov 2026 already/,
    );
    await refused(closeBooks(later, { throughDay: "2026-11-27", reason: "", seen }), /not come yet/);
    await refused(closeBooks(later, { throughDay: NEXT, reason: "", seen: "" }), /in the meantime/);
    await refused(reopenBooks(later, { fromDay: NEXT, reason: "Typing", seen }), /is open/);
    await reopenBooks(later, { fromDay: "2026-11-20", reason: "A bill came late", seen });
    expect(await closedThrough(a.read)).toBe("2026-11-19");
    await recordPayment(later, {
      invoiceId: of.invoice,
      amountMinor: 50,
      method: "card",
      paidOn: "2026-11-20",
    });
    await closeBooks(later, { throughDay: DAY, reason: "", seen: "2026-11-19" });
    expect((await listClosings(a)).map((row) => [row.act, row.throughDay, row.reason])).toEqual([
      ["closed", DAY, ""],
      ["reopened", "2026-11-19", "A bill came late"],
      ["closed", DAY, "November reported"],
    ]);
    await expect(a.write((tx) => tx.booksClosing.deleteMany())).rejects.toThrow(/only grows/);
    const trail = await a.read.auditEntry.findMany({
      where: { noun: "booksClosing" },
      orderBy: { id: "asc" },
    });
    expect(trail.map((entry) => [entry.act, (entry.detail as { before: string }).before])).toEqual([
      ["closed the books", ""],
      ["reopened the books", DAY],
      ["closed the books", "2026-11-19"],
    ]);
  });

  it("is for the owner and the bookkeeper, reopening for the owner alone", () => {
    const roles = ["owner", "desk", "tuner", "books"] as const;
    expect(roles.filter((role) => may(role, "books.close"))).toEqual(["owner", "books"]);
    expect(roles.filter((role) => may(role, "books.reopen"))).toEqual(["owner"]);
  });

  it("while another process sells, leaves no sale of that day that came after it", async () => {
    const partId = await partToSell(b, { opening: "2500" });
    const before = await b.read.sale.count();
    const child = spawn(
      process.execPath,
      [...nodeArgs("tests/support/sellUntilClosed.ts"), b.slug, String(partId), DAY],
      { cwd: fileURLToPath(new URL("../..", import.meta.url)), env: process.env },
    );
    let said = "";
    let complained = "";
    child.stderr.on("data", (chunk) => {
      complained += chunk;
    });
    const ended = new Promise<void>((done) => child.on("close", () => done()));
    await new Promise<void>((selling) => {
      child.stdout.on("data", (chunk) => {
        said += chunk;
        if (said.includes("selling")) selling();
      });
      child.on("close", () => selling());
    });
    await closeBooks(b, { throughDay: DAY, reason: "", seen: "" });
    await ended;
    const told = JSON.parse(said.split("\n").find((one) => one.startsWith("{")) ?? `"${complained}"`);
    expect(told).toMatchObject({ refused: 10, errors: [] });
    expect(told.sold).toBeGreaterThanOrEqual(3);
    const closed = await b.read.auditEntry.findFirstOrThrow({ where: { noun: "booksClosing" } });
    const after = await b.read.auditEntry.count({
      where: { id: { gt: closed.id }, noun: { in: ["invoice", "payment"] } },
    });
    expect(after).toBe(0);
    expect(await b.read.sale.count()).toBe(before + told.sold);
    expect(await problemsOf(b)).toEqual([]);
  }, 60_000);
});
