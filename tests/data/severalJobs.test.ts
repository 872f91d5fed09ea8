import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { listFollowUps } from "@/lib/data/followUps/list";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { addJob, changeBasis, takeJobOff } from "@/lib/data/invoices/draftJobs";
import { addInvoiceLine, editLine } from "@/lib/data/invoices/edits";
import { getInvoice, previewInvoice } from "@/lib/data/invoices/get";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { listInvoices } from "@/lib/data/invoices/list";
import { getJob } from "@/lib/data/jobs/get";
import { recordDeposit, recordPayment, recordRefund } from "@/lib/data/payments/record";
import type { ShopHandle } from "@/lib/db/shop";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { AddInvoiceLineSchema, EditLineSchema } from "@/lib/schemas/invoiceEdits";
import { invoiceNow, nameShop, readyJob, stateOf } from "../support/invoices";
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

/** Two finished jobs of one customer. */
async function pair(shop: ShopHandle) {
  const one = await readyJob(shop);
  const two = await readyJob(shop, one.ready);
  return { one, two, ready: one.ready };
}

const view = async (shop: ShopHandle, id: number) => {
  const found = await getInvoice(shop, id);
  if (!found?.doc) throw new Error(found?.refused?.message ?? "no such invoice");
  return { ...found, doc: found.doc };
};

const add = async (shop: ShopHandle, id: number, jobId: number, basis: "fixed" | "asWorked" = "fixed") =>
  addJob(shop, { id, version: (await invoiceNow(shop, id)).version, jobId, basis });

const issue = async (shop: ShopHandle, id: number) =>
  issueInvoice(shop, { id, version: (await invoiceNow(shop, id)).version });

/** Added up again by hand: inclusive prices hold their tax (total x r / (1 + r)), others get it on top of the sum. */
function addsUp(doc: PrintedInvoice): void {
  const shown = doc.lines.reduce((sum, line) => sum + line.shownMinor, 0);
  const net = doc.lines.reduce((sum, line) => sum + line.netMinor, 0);
  expect(doc.netMinor).toBe(net);
  if (doc.pricesIncludeTax) {
    expect(doc.grossMinor).toBe(shown);
    expect(doc.taxMinor).toBe(Math.round(shown / 11));
  } else {
    expect(net).toBe(shown);
    expect(doc.taxMinor).toBe(Math.round(net / 4));
  }
  expect(doc.netMinor + doc.taxMinor).toBe(doc.grossMinor);
  const before = doc.deposits.reduce((sum, deposit) => sum + deposit.amountMinor, 0);
  expect([doc.prepaidMinor, doc.dueMinor]).toEqual([before, doc.grossMinor - before]);
}

describe("one invoice of several jobs of a customer", () => {
  it("charges each job's lines under its own number, takes each job's deposits off and adds up", async () => {
    for (const shop of [a, b]) {
      const { one, two } = await pair(shop);
      await recordDeposit(shop, { jobId: one.jobId, amountMinor: 3_000, ...card });
      await recordDeposit(shop, { jobId: two.jobId, amountMinor: 4_500, ...card });
      const id = await draftInvoice(shop, { jobId: one.jobId, basis: "fixed" });
      await add(shop, id, two.jobId);
      const { doc, jobs } = await view(shop, id);
      const numbers = jobs.map((job) => job.number);
      expect(doc.jobs.map((job) => job.number)).toEqual(numbers);
      expect(numbers).toEqual(["601", "602"]);
      for (const number of numbers) {
        const own = doc.lines.filter((line) => line.job === number);
        const quoted = number === "601" ? one : two;
        const shown = own.reduce((sum, line) => sum + line.shownMinor, 0);
        expect(doc.pricesIncludeTax ? shown : shown + Math.round(shown / 4)).toBe(quoted.grossMinor);
      }
      expect(doc.lines).toHaveLength(doc.lines.filter((line) => line.job !== undefined).length);
      expect(new Set(doc.lines.map((line) => line.key)).size).toBe(doc.lines.length);
      expect(doc.deposits).toMatchObject([
        { amountMinor: 3_000, job: "601" },
        { amountMinor: 4_500, job: "602" },
      ]);
      addsUp(doc);
      expect((await invoiceNow(shop, id)).grossMinor).toBe(doc.grossMinor);
      await issue(shop, id);
      const frozen = storedInvoice((await invoiceNow(shop, id)).frozen);
      expect(frozen.lines).toEqual(doc.lines);
      expect([await stateOf(shop, one.jobId), await stateOf(shop, two.jobId)]).toEqual([
        "invoiced",
        "invoiced",
      ]);
      expect((await getJob(shop, two.jobId))?.invoices.map((invoice) => invoice.id)).toEqual([id]);
      for (const q of ["601", "602"])
        expect((await listInvoices(shop, { q, state: undefined, after: undefined })).rows).toHaveLength(1);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("is drafted of both at once too, to the same text", async () => {
    for (const shop of [a, b]) {
      const { one, two } = await pair(shop);
      const { joinable } = (await previewInvoice(shop, one.jobId)) ?? {};
      expect(joinable).toMatchObject([{ id: two.jobId, number: "602" }]);
      const together = await draftInvoice(shop, { jobId: one.jobId, basis: "fixed", also: [two.jobId] });
      const whole = (await view(shop, together)).doc;
      addsUp(whole);
      await takeJobOff(shop, { id: together, version: 1, jobId: two.jobId });
      expect((await view(shop, together)).doc.grossMinor).toBe(one.grossMinor);
      expect((await previewInvoice(shop, two.jobId))?.drafts).toMatchObject([
        { id: together, jobs: ["601"] },
      ]);
      await add(shop, together, two.jobId);
      expect((await view(shop, together)).doc).toEqual(whole);
    }
  });

  it("paid in full closes every job and puts each in the diary; money back opens them again", async () => {
    for (const shop of [a, b]) {
      const { one, two } = await pair(shop);
      const invoiceId = await draftInvoice(shop, { jobId: one.jobId, basis: "fixed", also: [two.jobId] });
      await issue(shop, invoiceId);
      const { leftMinor } = await view(shop, invoiceId);
      await recordPayment(shop, { invoiceId, amountMinor: leftMinor, ...card });
      const states = async () => [await stateOf(shop, one.jobId), await stateOf(shop, two.jobId)];
      expect(await states()).toEqual(["closed", "closed"]);
      expect((await listFollowUps(shop, { state: "due", after: undefined })).rows).toHaveLength(2);
      const back = { jobId: one.jobId, amountMinor: 500, reference: "Too much", ...card };
      await recordRefund(shop, back);
      expect(await states()).toEqual(["invoiced", "invoiced"]);
      expect((await view(shop, invoiceId)).leftMinor).toBe(500);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("credited mirrors every line; each job can be invoiced again alone, its own deposit off it", async () => {
    for (const shop of [a, b]) {
      const { one, two } = await pair(shop);
      await recordDeposit(shop, { jobId: two.jobId, amountMinor: 2_000, ...card });
      const id = await draftInvoice(shop, { jobId: one.jobId, basis: "fixed", also: [two.jobId] });
      await issue(shop, id);
      const whole = (await view(shop, id)).doc;
      const creditId = await creditInvoice(shop, { id, reason: "Wrong address" });
      const credit = (await view(shop, creditId)).doc;
      expect(credit.grossMinor).toBe(-whole.grossMinor);
      expect(credit.lines.map((line) => [line.key, line.job, line.shownMinor])).toEqual(
        whole.lines.map((line) => [line.key, line.job, -line.shownMinor]),
      );
      expect((await getJob(shop, two.jobId))?.invoices.map((one) => one.id)).toEqual([id, creditId]);
      const again = await draftInvoice(shop, { jobId: two.jobId, basis: "fixed" });
      await issue(shop, again);
      const alone = (await view(shop, again)).doc;
      expect([alone.grossMinor, alone.prepaidMinor]).toEqual([two.grossMinor, 2_000]);
      expect(alone.lines.some((line) => line.job !== undefined)).toBe(false);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("has each job's share of a payment on that job: credited, it comes off that job's next invoice, whichever others stand on it", async () => {
    for (const shop of [a, b]) {
      const { one, two, ready } = await pair(shop);
      const three = await readyJob(shop, ready);
      await recordDeposit(shop, { jobId: two.jobId, amountMinor: 2_000, ...card });
      const invoiceId = await draftInvoice(shop, { jobId: one.jobId, basis: "fixed", also: [two.jobId] });
      await issue(shop, invoiceId);
      const { leftMinor, doc } = await view(shop, invoiceId);
      // Tax on both together may round to a cent more or less than on each: that is on the last job.
      const cents = doc.grossMinor - one.grossMinor - two.grossMinor;
      expect(Math.abs(cents)).toBeLessThanOrEqual(doc.pricesIncludeTax ? 0 : 1);
      expect(leftMinor).toBe(doc.grossMinor - 2_000);
      await recordPayment(shop, {
        invoiceId,
        amountMinor: leftMinor - 1_500,
        ...card,
        also: { method: "transfer", amountMinor: 1_500 },
      });
      // One act by two methods stands on the page as two amounts, however many jobs it is shared over.
      const paid = (await view(shop, invoiceId)).payments.filter((row) => row.kind === "payment");
      expect(paid.map((row) => [row.method, row.amountMinor])).toEqual([
        ["card", leftMinor - 1_500],
        ["transfer", 1_500],
      ]);
      const held = async (jobId: number) =>
        ((await shop.read.payment.findMany({ where: { jobId } })) as { amountMinor: number }[]).reduce(
          (sum, row) => sum + row.amountMinor,
          0,
        );
      expect([await held(one.jobId), await held(two.jobId)]).toEqual([
        one.grossMinor,
        two.grossMinor + cents,
      ]);
      expect(await problemsOf(shop)).toEqual([]);

      await creditInvoice(shop, { id: invoiceId, reason: "Jobs mixed up" });
      const alone = await draftInvoice(shop, { jobId: two.jobId, basis: "fixed" });
      await issue(shop, alone);
      expect((await view(shop, alone)).leftMinor).toBe(0 - cents);
      if (cents === 0) expect(await stateOf(shop, two.jobId)).toBe("closed");
      const other = await draftInvoice(shop, { jobId: three.jobId, basis: "fixed", also: [one.jobId] });
      await issue(shop, other);
      const both = await view(shop, other);
      expect(both.doc.prepaidMinor).toBe(one.grossMinor);
      expect(both.leftMinor).toBe(both.doc.grossMinor - one.grossMinor);
      expect(both.doc.jobs.map((job) => job.number)).toEqual(["603", "601"]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("has lines changed, added and charged the other way job by job; taking a job off takes its changes along", async () => {
    for (const shop of [a, b]) {
      const { one, two } = await pair(shop);
      const id = await draftInvoice(shop, { jobId: one.jobId, basis: "fixed", also: [two.jobId] });
      const before = (await view(shop, id)).doc;
      const line = before.lines.find((own) => own.job === "602" && own.kind === "labour");
      if (!line) throw new Error("no labour");
      const seen = async () => ({ id: String(id), version: String((await invoiceNow(shop, id)).version) });
      await editLine(
        shop,
        EditLineSchema.parse({
          ...(await seen()),
          key: line.key,
          act: "change",
          reason: "Done in half the time",
          name: line.name,
          quantity: "30",
          price: "100.00",
        }),
      );
      await addInvoiceLine(
        shop,
        AddInvoiceLineSchema.parse({
          ...(await seen()),
          jobId: String(two.jobId),
          kind: "fixed",
          name: "Old fuel taken away",
          price: "7.50",
          reason: "Forgotten",
        }),
      );
      const { doc, sides = [] } = await view(shop, id);
      const changed = doc.lines.find((own) => own.key === line.key);
      // Half an hour at 100.00.
      expect(changed).toMatchObject({ shownMinor: 5_000, job: "602" });
      expect(doc.lines.find((own) => own.name === "Old fuel taken away")).toMatchObject({
        shownMinor: 750,
        job: "602",
      });
      const sumOf = (printed: PrintedInvoice, job: string) =>
        printed.lines.filter((own) => own.job === job).reduce((sum, own) => sum + own.shownMinor, 0);
      expect(sumOf(doc, "601")).toBe(sumOf(before, "601"));
      expect(sumOf(doc, "602")).toBe(sumOf(before, "602") - line.shownMinor + 5_000 + 750);
      addsUp(doc);
      expect(new Set(sides.map((side) => side.job))).toEqual(new Set(["601", "602"]));
      expect(sides.find((side) => side.key === line.key)).toMatchObject({
        agreedMinor: line.shownMinor,
        chargedMinor: 5_000,
      });
      const { version } = await invoiceNow(shop, id);
      await expect(changeBasis(shop, { id, version, basis: "asWorked", jobId: two.jobId })).rejects.toThrow(
        "Lines of job 602 were changed by hand",
      );
      await takeJobOff(shop, { id, version, jobId: two.jobId });
      const left = await view(shop, id);
      expect([left.doc.grossMinor, left.edits]).toEqual([one.grossMinor, []]);
    }
  });

  it("refuses a job of someone else, one that is not done, one that is invoiced, and to lose its first", async () => {
    const { one, two, ready } = await pair(a);
    const id = await draftInvoice(a, { jobId: one.jobId, basis: "fixed" });
    const stranger = await a.write((tx) =>
      tx.customer.create({
        data: { name: "Oda Fenn", searchKey: "oda fenn", createdAt: a.now },
        select: { id: true },
      }),
    );
    await a.write((tx) => tx.job.update({ where: { id: two.jobId }, data: { customerId: stranger.id } }));
    await expect(add(a, id, two.jobId)).rejects.toThrow("Job 602 is Oda Fenn's, job 601 is");
    await a.write((tx) =>
      tx.job.update({ where: { id: two.jobId }, data: { customerId: ready.customerId, state: "inWork" } }),
    );
    await expect(add(a, id, two.jobId)).rejects.toThrow("Job 602 is in work");
    await a.write((tx) => tx.job.update({ where: { id: two.jobId }, data: { state: "ready" } }));
    const other = await draftInvoice(a, { jobId: two.jobId, basis: "fixed" });
    await expect(add(a, id, two.jobId)).rejects.toThrow("already has a draft invoice");
    await issue(a, other);
    await expect(add(a, id, two.jobId)).rejects.toThrow(/already invoiced with 2001/);
    await expect(takeJobOff(a, { id, version: 1, jobId: one.jobId })).rejects.toThrow("began with job 601");
    await expect(takeJobOff(a, { id, version: 1, jobId: two.jobId })).rejects.toThrow("not on the draft");
    expect(await b.read.invoice.count()).toBe(0);
  });

  it("once issued keeps its jobs in the database itself, and a job asked for twice at once stands on one invoice", async () => {
    const { one, two, ready } = await pair(a);
    const three = await readyJob(a, ready);
    const first = await draftInvoice(a, { jobId: one.jobId, basis: "fixed" });
    const second = await draftInvoice(a, { jobId: two.jobId, basis: "fixed" });
    const tried = await Promise.allSettled([add(a, first, three.jobId), add(a, second, three.jobId)]);
    expect(tried.map((each) => each.status).sort()).toEqual(["fulfilled", "rejected"]);
    const { invoiceId } = await a.read.invoiceJob.findFirstOrThrow();
    await issue(a, invoiceId);
    const moved = { where: { invoiceId }, data: { jobId: one.jobId } };
    await expect(a.write((tx) => tx.invoiceJob.updateMany(moved))).rejects.toThrow(/never changes/);
    await expect(a.write((tx) => tx.invoiceJob.deleteMany({ where: { invoiceId } }))).rejects.toThrow(
      /never changes/,
    );
    await expect(
      a.write((tx) => tx.invoiceJob.create({ data: { invoiceId, jobId: one.jobId, basis: "fixed" } })),
    ).rejects.toThrow(/never changes/);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("holds each job's own yes by word against that job alone", async () => {
    for (const shop of [a, b]) {
      const { one, two } = await pair(shop);
      await shop.write((tx) =>
        tx.jobYes.create({
          data: {
            jobId: two.jobId,
            saidBy: "Ines Valdborg",
            how: "phone",
            upToMinor: two.grossMinor - 1,
            at: shop.now,
            staffId: shop.by.staffId,
          },
        }),
      );
      const id = await draftInvoice(shop, { jobId: one.jobId, basis: "fixed", also: [two.jobId] });
      await expect(issue(shop, id)).rejects.toThrow(/^Job 602 on this invoice comes to/);
      await shop.write((tx) =>
        tx.jobYes.create({
          data: {
            jobId: two.jobId,
            saidBy: "Ines Valdborg",
            how: "phone",
            upToMinor: two.grossMinor,
            at: shop.now,
            staffId: shop.by.staffId,
          },
        }),
      );
      await issue(shop, id);
    }
  });
});
