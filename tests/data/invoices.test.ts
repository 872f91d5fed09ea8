import { beforeEach, describe, expect, it } from "vitest";
import { hashOf } from "@/lib/data/common/hash";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { discardDraft, draftInvoice } from "@/lib/data/invoices/draft";
import { changeBasis } from "@/lib/data/invoices/draftJobs";
import { getInvoice, previewInvoice } from "@/lib/data/invoices/get";
import { moneyProblems } from "@/lib/data/invoices/invariants";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { mailInvoice, makeInvoiceLink, makeJobLink } from "@/lib/data/invoices/links";
import { listInvoices, listUnpaid } from "@/lib/data/invoices/list";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { tokenHash } from "@/lib/db/token";
import { invoiceNow, issuedInvoice, nameShop, readyJob, stateOf } from "../support/invoices";
import { readyToQuote } from "../support/quotes";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

const DAY = 86_400_000;
const kinds = (shop: ShopHandle, kind: "invoice" | "creditNote") =>
  shop.read.invoice.findMany({
    where: { kind, state: "issued" },
    select: { number: true },
    orderBy: { number: "asc" },
  });

describe("an invoice as quoted", () => {
  it("has the quote's lines and totals, with tax in the prices (AUD) and on top of them (NOK)", async () => {
    for (const shop of [a, b]) {
      const { jobId, grossMinor } = await readyJob(shop);
      const id = await issuedInvoice(shop, jobId);
      const row = await invoiceNow(shop, id);
      const doc = storedInvoice(row.frozen);
      expect(row.number).toBe(2001);
      expect(doc.grossMinor).toBe(grossMinor);
      expect(doc.netMinor + doc.taxMinor).toBe(grossMinor);
      expect(doc.lines.reduce((sum, line) => sum + line.netMinor, 0)).toBe(doc.netMinor);
      expect(doc.lines.every((line) => !("costMinor" in line))).toBe(true);
      expect(doc.currency).toBe(shop === a ? "AUD" : "NOK");
      expect(doc.title).toBe(shop === a ? "Tax invoice" : "Faktura");
      expect(row.hash).toBe(hashOf(doc));
      expect(await stateOf(shop, jobId)).toBe("invoiced");
      expect(await moneyProblems(shop)).toEqual([]);
    }
  });

  it("is dated on the shop's day, not the server's: Adelaide is ahead of Oslo", async () => {
    const at = new Date("2026-11-25T22:30:00Z");
    for (const [shop, day, due] of [
      [a, "2026-11-26", "2026-12-03"],
      [b, "2026-11-25", "2026-12-02"],
    ] as const) {
      const { jobId } = await readyJob(shop);
      const row = await invoiceNow(shop, await issuedInvoice(as(shop, { now: at }), jobId));
      expect([row.issuedOn, row.dueOn]).toEqual([day, due]);
    }
  });

  it("is made of one job once: a second is refused until the first is credited, and the other shop has none", async () => {
    const { jobId } = await readyJob(a);
    await draftInvoice(a, { jobId, basis: "fixed" });
    await expect(draftInvoice(a, { jobId, basis: "fixed" })).rejects.toThrow(/already has a draft/);
    expect(await b.read.invoice.findMany()).toEqual([]);
    await expect(draftInvoice(b, { jobId: 987, basis: "fixed" })).rejects.toMatchObject({ kind: "missing" });
  });

  it("is refused while the job is not finished, and says what to do", async () => {
    const { jobId } = await readyJob(a);
    await a.write((tx) => tx.job.update({ where: { id: jobId }, data: { state: "inWork" } }));
    await expect(draftInvoice(a, { jobId, basis: "fixed" })).rejects.toThrow(/is in work/);
  });
});

describe("an invoice as worked", () => {
  it("bills minutes by grade in the shop's unit and the parts used less those that came back", async () => {
    const { jobId } = await readyJob(a);
    await a.write(async (tx) => {
      await tx.settings.update({ where: { id: 1 }, data: { billingUnit: "tenths" } });
      const step = await tx.step.findFirstOrThrow({ where: { jobId }, orderBy: { position: "asc" } });
      const from = a.now.getTime() - DAY;
      const entry = (stepId: number | null, minutes: number, at: number) =>
        tx.timeEntry.create({
          data: {
            staffId: a.by.staffId ?? 0,
            jobId,
            stepId,
            startedAt: new Date(at),
            endedAt: new Date(at + minutes * 60_000),
          },
        });
      await entry(step.id, 31, from);
      await entry(step.id, 3, from + 40 * 60_000);
      await entry(null, 7, from + 60 * 60_000);
    });
    const filter = await a.read.part.findUniqueOrThrow({ where: { code: "BF-20" } });
    await recordMove(a, { partId: filter.id, kind: "use", quantityMilli: -3000, jobId });
    await recordMove(a, { partId: filter.id, kind: "returnToStock", quantityMilli: 1000, jobId });
    const preview = await previewInvoice(a, jobId);
    const lines = preview?.asWorked.doc?.lines ?? [];
    // 34 min on the step and 7 min outside steps, rounded up once: 7 tenths, 42 min at 100.00 an hour.
    expect(lines.map((line) => [line.kind, line.quantityMilli, line.shownMinor])).toEqual([
      ["labour", 700, 7000],
      // Cost 4.20 a piece, 100 % markup and 10 % GST in the price: 9.24 each.
      ["part", 2000, 1848],
    ]);
    expect(preview?.fixed.doc?.grossMinor).not.toBe(preview?.asWorked.doc?.grossMinor);
    const id = await draftInvoice(a, { jobId, basis: "fixed" });
    const { version } = await invoiceNow(a, id);
    await changeBasis(a, { id, version, basis: "asWorked" });
    await issueInvoice(a, { id, version: version + 1, shownMinor: 8848 });
    expect((await invoiceNow(a, id)).grossMinor).toBe(8848);
  });

  it("is refused while time runs, and says so in the preview", async () => {
    const { jobId } = await readyJob(b);
    await b.write((tx) =>
      tx.timeEntry.create({ data: { staffId: b.by.staffId ?? 0, jobId, startedAt: b.now } }),
    );
    expect((await previewInvoice(b, jobId))?.asWorked.refused?.message).toMatch(/Time still runs/);
    await expect(draftInvoice(b, { jobId, basis: "asWorked" })).rejects.toThrow(/Time still runs/);
  });

  it("is not issued at another total than was shown", async () => {
    const { jobId } = await readyJob(a);
    const id = await draftInvoice(a, { jobId, basis: "fixed" });
    const { version, grossMinor } = await invoiceNow(a, id);
    await expect(issueInvoice(a, { id, version, shownMinor: grossMinor - 1 })).rejects.toMatchObject({
      kind: "conflict",
    });
    expect((await invoiceNow(a, id)).state).toBe("draft");
  });
});

describe("issuing", () => {
  it("twenty at once are numbered without a gap, each once", async () => {
    const ready = await readyToQuote(a, 80);
    const drafts: number[] = [];
    for (let n = 0; n < 20; n++)
      drafts.push(await draftInvoice(a, { jobId: (await readyJob(a, ready)).jobId, basis: "fixed" }));
    await Promise.all(drafts.map((id) => issueInvoice(a, { id, version: 1 })));
    expect((await kinds(a, "invoice")).map((row) => row.number)).toEqual(
      Array.from({ length: 20 }, (_, n) => 2001 + n),
    );
    expect(await moneyProblems(a)).toEqual([]);
    expect(await b.read.counter.findUnique({ where: { name: "invoice" } })).toBeNull();
  });

  it("the same request twice issues once; another version is refused; a refused issue takes no number", async () => {
    const { jobId } = await readyJob(a);
    const id = await draftInvoice(a, { jobId, basis: "fixed" });
    await expect(issueInvoice(a, { id, version: 7 })).rejects.toMatchObject({ kind: "conflict" });
    const both = await Promise.all([
      issueInvoice(a, { id, version: 1, key: "issue-one" }),
      issueInvoice(a, { id, version: 1, key: "issue-one" }),
    ]);
    expect(both).toEqual([id, id]);
    expect(await kinds(a, "invoice")).toEqual([{ number: 2001 }]);
    await expect(issueInvoice(a, { id, version: 2 })).rejects.toThrow(/issued as number 2001/);
  });

  it("is refused without the shop's number, and from 1,000 AUD without the buyer; the message names where to enter it", async () => {
    const { jobId, ready } = await readyJob(a);
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { taxNumber: "" } }));
    const id = await draftInvoice(a, { jobId, basis: "fixed" });
    await expect(issueInvoice(a, { id, version: 1 })).rejects.toThrow(/ABN is missing/);
    await nameShop(a);
    await a.write((tx) => tx.labourGrade.updateMany({ data: { ratePerHourMinor: 90_000 } }));
    await a.write((tx) => tx.customer.update({ where: { id: ready.customerId }, data: { name: "" } }));
    const dear = await draftInvoice(a, { jobId: (await readyJob(a, ready)).jobId, basis: "fixed" });
    expect((await invoiceNow(a, dear)).grossMinor).toBeGreaterThan(100_000);
    await expect(issueInvoice(a, { id: dear, version: 1 })).rejects.toThrow(
      /customer's name or tax number is missing/,
    );
    await issueInvoice(a, { id, version: 1 });
    expect(await kinds(a, "invoice")).toEqual([{ number: 2001 }]);
  });

  it("is refused in Norway without the customer's address", async () => {
    const { jobId, ready } = await readyJob(b);
    await b.write((tx) => tx.customer.update({ where: { id: ready.customerId }, data: { address: "" } }));
    const id = await draftInvoice(b, { jobId, basis: "fixed" });
    expect((await getInvoice(b, id))?.missing.map((one) => one.field)).toEqual(["buyerAddress"]);
    await expect(issueInvoice(b, { id, version: 1 })).rejects.toThrow(/customer's address is missing/);
  });

  it("freezes: the database itself refuses to change or remove what was issued", async () => {
    const { jobId } = await readyJob(a);
    const id = await issuedInvoice(a, jobId);
    const before = await invoiceNow(a, id);
    for (const data of [
      { grossMinor: 1 },
      { number: 9 },
      { issuedOn: "2026-01-01" },
      { frozen: {} },
      { state: "draft" as const },
    ])
      await expect(a.write((tx) => tx.invoice.update({ where: { id }, data }))).rejects.toThrow(
        "An issued document never changes",
      );
    await expect(a.write((tx) => tx.invoice.delete({ where: { id } }))).rejects.toThrow(
      "An issued document never goes",
    );
    expect(await invoiceNow(a, id)).toEqual(before);
  });

  it("keeps the name it printed when the customer or the shop is renamed after", async () => {
    const { jobId, ready } = await readyJob(a);
    const id = await issuedInvoice(a, jobId);
    await a.write((tx) =>
      tx.customer.update({ where: { id: ready.customerId }, data: { name: "Someone Else" } }),
    );
    expect((await getInvoice(a, id))?.doc?.buyer.name).toBe("Ines Valdborg");
  });
});

describe("a draft", () => {
  it("can be discarded and leaves no number behind; another version cannot", async () => {
    const { jobId } = await readyJob(a);
    const id = await draftInvoice(a, { jobId, basis: "fixed" });
    await expect(discardDraft(a, { id, version: 3 })).rejects.toMatchObject({ kind: "conflict" });
    expect(await discardDraft(a, { id, version: 1 })).toBe(jobId);
    expect(await a.read.invoice.findUnique({ where: { id } })).toBeNull();
    expect((await invoiceNow(a, await issuedInvoice(a, jobId))).number).toBe(2001);
  });
});

describe("a credit note", () => {
  it("mirrors its invoice to the cent, has its own numbers, and frees the job to be invoiced again", async () => {
    for (const shop of [a, b]) {
      const { jobId } = await readyJob(shop);
      const id = await issuedInvoice(shop, jobId);
      const creditId = await creditInvoice(shop, { id, reason: "Wrong customer on it" });
      const invoice = storedInvoice((await invoiceNow(shop, id)).frozen);
      const credit = storedInvoice((await invoiceNow(shop, creditId)).frozen);
      expect(credit.number).toBe(301);
      expect(credit.credits).toEqual({
        kind: "invoice",
        number: 2001,
        written: "2001",
        issuedOn: invoice.issuedOn,
        reason: "Wrong customer on it",
      });
      expect(
        credit.lines.map((line) => [line.netMinor, line.shownMinor, line.quantityMilli, line.unitPriceE4]),
      ).toEqual(
        invoice.lines.map((line) => [
          0 - line.netMinor,
          0 - line.shownMinor,
          0 - line.quantityMilli,
          line.unitPriceE4,
        ]),
      );
      expect(credit.taxes.map((tax) => [tax.name, tax.taxableMinor, tax.taxMinor])).toEqual(
        invoice.taxes.map((tax) => [tax.name, 0 - tax.taxableMinor, 0 - tax.taxMinor]),
      );
      expect(credit.grossMinor + invoice.grossMinor).toBe(0);
      expect((await getInvoice(shop, id))?.standing).toBe("credited");
      await expect(creditInvoice(shop, { id, reason: "Again" })).rejects.toThrow(/already credited with 301/);
      await expect(creditInvoice(shop, { id: creditId, reason: "Of a credit" })).rejects.toThrow(
        /Only an issued invoice/,
      );
      expect((await invoiceNow(shop, await issuedInvoice(shop, jobId))).number).toBe(2002);
      expect(await moneyProblems(shop)).toEqual([]);
    }
  });
});

describe("lists and links", () => {
  it("say where each stands: late by days, credited, and what is still to come in", async () => {
    const ready = await readyToQuote(a, 40);
    const first = await readyJob(a, ready);
    const late = await issuedInvoice(a, first.jobId);
    const second = await readyJob(a, ready);
    await creditInvoice(a, { id: await issuedInvoice(a, second.jobId), reason: "Made twice" });
    const later = as(a, { now: new Date(a.now.getTime() + 10 * DAY) });
    const { rows } = await listInvoices(later, {});
    expect(rows.map((row) => [row.kind, row.standing, row.lateDays])).toEqual([
      ["creditNote", "credit", 0],
      ["invoice", "credited", 0],
      ["invoice", "late", 3],
    ]);
    expect((await listInvoices(later, { state: "late" })).rows.map((row) => row.id)).toEqual([late]);
    expect((await listInvoices(a, { state: "late" })).rows).toEqual([]);
    expect((await listInvoices(a, { state: "unpaid" })).rows.map((row) => row.id)).toEqual([late]);
    expect((await listInvoices(a, { q: "valdborg 2001" })).rows.map((row) => row.number)).toEqual([2001]);
    expect((await listInvoices(a, { q: "valdborg 2999" })).rows).toEqual([]);
    expect((await listInvoices(a, { q: "2001 ines" })).rows.map((row) => row.id)).toEqual([late]);
    expect(await listUnpaid(later)).toMatchObject({
      outstandingMinor: first.grossMinor,
      lateMinor: first.grossMinor,
      late: 1,
      more: false,
    });
    expect((await listInvoices(b, {})).rows).toEqual([]);
  });

  it("a link keeps only its token's hash, and a draft has none", async () => {
    const { jobId } = await readyJob(a);
    const draft = await draftInvoice(a, { jobId, basis: "fixed" });
    await expect(makeInvoiceLink(a, draft)).rejects.toThrow(/draft is not shown/);
    await issueInvoice(a, { id: draft, version: 1 });
    const { path } = await makeInvoiceLink(a, draft);
    const token = path.split("/").at(-1) ?? "";
    const row = await a.read.customerLink.findUniqueOrThrow({ where: { tokenHash: tokenHash(token) } });
    expect([row.purpose, row.invoiceId, path.startsWith(`/c/${a.slug}/`)]).toEqual(["invoice", draft, true]);
    expect((await makeJobLink(a, jobId)).path).not.toBe(path);
    expect(await b.read.customerLink.findMany()).toEqual([]);
  });

  it("the mail with the link is written once for one request, and not without an address", async () => {
    const { jobId, ready } = await readyJob(a);
    const id = await issuedInvoice(a, jobId);
    const before = await a.read.mail.count();
    for (const key of ["mail-once", "mail-once"])
      await mailInvoice(a, { id, origin: "https://shop.example", key });
    const mails = await a.read.mail.findMany({ orderBy: { id: "desc" } });
    expect(mails.length).toBe(before + 1);
    expect(mails[0]?.text).toContain(`https://shop.example/c/${a.slug}/`);
    await a.write((tx) => tx.customer.update({ where: { id: ready.customerId }, data: { email: "" } }));
    await expect(mailInvoice(a, { id, origin: "https://shop.example" })).rejects.toThrow(/no mail address/);
  });
});

describe("the invariants", () => {
  it("find a hash that is not the document's and a paid sum that is not its payments'", async () => {
    const { jobId } = await readyJob(a);
    const id = await issuedInvoice(a, jobId);
    await a.write((tx) => tx.invoice.update({ where: { id }, data: { paidMinor: 5 } }));
    await a.write((tx) => tx.counter.update({ where: { name: "invoice" }, data: { next: 2010 } }));
    expect(await moneyProblems(a)).toEqual([
      "The next invoice number is 2010, not 2002.",
      "Invoice 2001 keeps another sum paid than its payments.",
    ]);
    expect(await moneyProblems(b)).toEqual([]);
  });
});

describe("a clock that was set back", () => {
  const later = new Date("2026-11-28T00:30:00Z");

  it("does not date a document before the last one unasked: nothing is numbered, the other shop goes on", async () => {
    const { jobId, ready } = await readyJob(a);
    await issuedInvoice(as(a, { now: later }), jobId);
    const second = await readyJob(a, ready);
    const id = await draftInvoice(a, { jobId: second.jobId, basis: "fixed" });
    await expect(issueInvoice(a, { id, version: 1 })).rejects.toMatchObject({
      message: "Today is 25 Nov 2026 here, and invoice 2001 is dated 28 Nov 2026: nothing was issued.",
      kind: "conflict",
    });
    expect((await getInvoice(a, id))?.later).toEqual({
      kind: "invoice",
      written: "2001",
      issuedOn: "2026-11-28",
    });
    expect((await kinds(a, "invoice")).map((row) => row.number)).toEqual([2001]);
    await issuedInvoice(b, (await readyJob(b)).jobId);
    // Back in order, the same draft is issued without a question.
    await issueInvoice(as(a, { now: later }), { id, version: 1 });
    expect(await moneyProblems(a)).toEqual([]);
  });

  it("dates it so where somebody says that it is meant; the audit trail keeps that, and the books hold", async () => {
    const first = await readyJob(a);
    const firstId = await issuedInvoice(as(a, { now: later }), first.jobId);
    await expect(creditInvoice(a, { id: firstId, reason: "Wrong customer" })).rejects.toThrow(
      /nothing was issued/,
    );
    await creditInvoice(a, { id: firstId, reason: "Wrong customer", earlier: "on" });
    const second = await readyJob(a, first.ready);
    const id = await draftInvoice(a, { jobId: second.jobId, basis: "fixed" });
    await issueInvoice(a, { id, version: 1, earlier: "on" });
    expect((await invoiceNow(a, id)).issuedOn).toBe("2026-11-25");
    expect(await moneyProblems(a)).toEqual([]);
    const entries = await a.read.auditEntry.findMany({
      where: { act: { in: ["issued", "credited"] } },
      orderBy: { id: "asc" },
    });
    expect(entries.map(({ detail }) => (detail as { earlierThan?: string }).earlierThan)).toEqual([
      undefined,
      "2026-11-28",
      "2026-11-28",
    ]);
  });

  it("is told of by the check of the books where a document got its date without being asked", async () => {
    const { ready, jobId } = await readyJob(a);
    await issuedInvoice(as(a, { now: later }), jobId);
    const nextDay = new Date("2026-11-29T00:30:00Z");
    await issuedInvoice(as(a, { now: nextDay }), (await readyJob(a, ready)).jobId);
    expect(await moneyProblems(a)).toEqual([]);
    const third = await readyJob(a, ready);
    const id = await draftInvoice(a, { jobId: third.jobId, basis: "fixed" });
    await issueInvoice(a, { id, version: 1, earlier: "on" });
    const { id: entry } = await a.read.auditEntry.findFirstOrThrow({
      where: { act: "issued", noun: "invoice", nounId: id },
      orderBy: { id: "desc" },
    });
    // As a version of this program that did not ask would have left it.
    const table = process.env.DATABASE_URL ? `"${a.slug}"."AuditEntry"` : `"AuditEntry"`;
    const trigger = process.env.DATABASE_URL
      ? `ALTER TABLE ${table} DISABLE TRIGGER USER`
      : `DROP TRIGGER "AuditEntry_only_grows_update"`;
    await a.write((tx) => tx.$executeRawUnsafe(trigger));
    await a.write((tx) => tx.$executeRawUnsafe(`UPDATE ${table} SET "detail" = NULL WHERE "id" = ${entry}`));
    expect(await moneyProblems(a)).toEqual([
      "Invoice 2003 is dated 25 Nov 2026, before 2002 (29 Nov 2026): a clock was set back.",
    ]);
  });
});
