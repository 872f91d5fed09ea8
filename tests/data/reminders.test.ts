import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { problemsOf } from "@/lib/data/books/invariants";
import { dueReminders } from "@/lib/data/chasing/due";
import { chargeFees, openFees, waiveFee } from "@/lib/data/chasing/fees";
import { remindOfPayment } from "@/lib/data/chasing/remind";
import { reminderRound, sendReminders } from "@/lib/data/chasing/round";
import { remindersOf, reminderToSend } from "@/lib/data/chasing/sent";
import { endStop, stopReminders } from "@/lib/data/chasing/stops";
import { saveReminderTerms } from "@/lib/data/chasing/terms";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { discardDraft, draftInvoice } from "@/lib/data/invoices/draft";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { enclosedWith } from "@/lib/data/mail/attachments";
import { mailQueueOf } from "@/lib/data/mail/queue";
import { mergeCustomers } from "@/lib/data/merging/customers";
import { recordBounced } from "@/lib/data/payments/bounced";
import { recordPayment } from "@/lib/data/payments/record";
import { recordWriteOff, takeWriteOffBack } from "@/lib/data/payments/writeOff";
import type { ShopHandle } from "@/lib/db/shop";
import { printEnclosed } from "@/lib/documents/enclosed";
import { reminderPdf } from "@/lib/documents/reminder";
import type { ReminderTerms } from "@/lib/domain/chasing/reminderTerms";
import { formatMoney } from "@/lib/domain/money/format";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";
import { letterRound, wantsLetters } from "@/lib/server/letterRound";
import { atOnce } from "../support/atOnce";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { pdfText } from "../support/pdfText";
import { makeBike, ORIGIN, type Ready } from "../support/quotes";
import { as, twoShops } from "../support/shops";
import { type MailServer, mailServer, partsOf } from "../support/smtp";
import { workThenKill } from "../support/workThenKill";

let a: ShopHandle;
let b: ShopHandle;
const ready = new Map<ShopHandle, Ready>();
let post: MailServer;

beforeAll(async () => {
  post = await mailServer();
  reconfigure({ SMTP_URL: post.url, MAIL_FROM: "desk@saltpan.example" });
});
afterAll(async () => {
  reconfigure({ SMTP_URL: undefined, MAIL_FROM: undefined });
  await post.close();
});
beforeEach(async () => {
  ({ a, b } = await twoShops());
  ready.clear();
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

/** An issued invoice of the shop's customer. */
async function issued(shop: ShopHandle) {
  const job = await readyJob(shop, ready.get(shop));
  ready.set(shop, job.ready);
  const id = await issuedInvoice(shop, job.jobId);
  const { dueOn, written, grossMinor } = await invoiceNow(shop, id);
  return { id, jobId: job.jobId, dueOn: dueOn ?? "", written, grossMinor };
}

/** So many days after the invoice was due, at noon in UTC. */
const late = (shop: ShopHandle, dueOn: string, days: number) =>
  as(shop, { now: new Date(`${dayAfter(dueOn, days)}T02:00:00Z`) });
const terms = (more: { days?: number[]; fees?: number[]; automatic?: boolean[] } = {}): ReminderTerms => ({
  levels: ([1, 2, 3] as const).map((level) => ({
    level,
    days: more.days?.[level - 1] ?? [7, 21, 35][level - 1] ?? null,
    feeMinor: more.fees?.[level - 1] ?? 0,
    automatic: more.automatic?.[level - 1] ?? false,
  })),
  feeTaxMark: "",
});
const hand = (id: number, words = "") => ({ id, words, origin: ORIGIN });
const kinds = async (shop: ShopHandle) =>
  (
    await shop.read.mail.findMany({
      where: { letter: { startsWith: "paymentReminder" } },
      orderBy: { id: "asc" },
    })
  ).map((mail) => mail.letter);

describe("a reminder by hand", () => {
  it("goes of what is late alone, in rising tone, with its paper and the invoice, and stands on both pages", async () => {
    for (const shop of [a, b]) {
      const { id, dueOn, written, grossMinor } = await issued(shop);
      await saveReminderTerms(shop, { ...terms({ fees: [0, 35_00, 70_00] }), version: 0 });
      await expect(remindOfPayment(late(shop, dueOn, 0), hand(id))).rejects.toThrow(
        "Nothing of this is late.",
      );
      const first = late(shop, dueOn, 8);
      expect((await reminderToSend(shop.read, id, first.now))?.next).toMatchObject({
        level: 1,
        fromDay: dayAfter(dueOn, 7),
      });
      for (const key of ["remind-key-1", "remind-key-1"])
        expect(await remindOfPayment(first, { ...hand(id, "Drop in when you pass."), key })).toMatchObject({
          to: "customer@example.com",
        });
      const second = late(shop, dueOn, 22);
      await expect(remindOfPayment(second, { ...hand(id), level: 1 })).rejects.toThrow(/is next now/);
      await remindOfPayment(second, { ...hand(id), level: 2 });
      await remindOfPayment(late(shop, dueOn, 40), hand(id));
      await expect(remindOfPayment(late(shop, dueOn, 90), hand(id))).rejects.toThrow(/All reminders/);
      expect(await kinds(shop)).toEqual(["paymentReminder", "paymentReminder2", "paymentReminder3"]);

      const mails = await shop.read.mail.findMany({
        where: { letter: { startsWith: "paymentReminder" } },
        orderBy: { id: "asc" },
      });
      const doc = storedInvoice((await invoiceNow(shop, id)).frozen);
      const money = (minor: number) => formatMoney(minor, doc.currency, doc.locale);
      expect(mails[0]?.text).toContain("Drop in when you pass.");
      expect(mails[0]?.text).toContain(money(grossMinor));
      expect(mails[0]?.text).not.toMatch(/For reminding|Gebyret/u);
      expect(mails[1]?.text).toContain(money(35_00));
      expect(mails[2]?.text).toContain(money(grossMinor + 105_00));

      const enclosed = await enclosedWith(shop, mails[2]?.id ?? 0);
      expect(enclosed.map((one) => one.document)).toEqual(["reminder", "invoice"]);
      const [paper] = enclosed;
      if (paper?.document !== "reminder") throw new Error("No reminder.");
      const pdf = await reminderPdf(paper.printed);
      expect(Buffer.from(await reminderPdf(paper.printed)).equals(Buffer.from(pdf))).toBe(true);
      const text = await pdfText(pdf);
      for (const minor of [grossMinor, 35_00, 70_00, grossMinor + 105_00])
        expect(text).toContain(money(minor).replace(/[\s\u00a0]+/gu, ""));
      expect(text).toContain(shop === a ? "Lastpaymentreminder" : "Sistepurring");

      for (const of of [{ invoiceId: id }, { customerId: ready.get(shop)?.customerId ?? 0 }]) {
        const { sent } = await remindersOf(shop.read, of, dayAfter(dueOn, 41));
        expect(sent.map((one) => [one.level, one.invoice.written, one.fee, one.mail?.to])).toEqual([
          [3, written, "open", "customer@example.com"],
          [2, written, "open", "customer@example.com"],
          [1, written, null, "customer@example.com"],
        ]);
      }
    }
    const other = await shopInvoice(a);
    await expect(remindOfPayment(late(b, other.dueOn, 20), hand(other.id + 90))).rejects.toThrow(
      "There is no such invoice.",
    );
  });

  const shopInvoice = async (shop: ShopHandle) => {
    const { id, dueOn } = await shop.read.invoice.findFirstOrThrow({
      where: { kind: "invoice", state: "issued" },
    });
    return { id, dueOn: dueOn ?? "" };
  };

  it("arrives with both papers", async () => {
    post.received.length = 0;
    const { id, dueOn, written } = await issued(a);
    const now = late(a, dueOn, 9);
    await a.write((tx) => tx.mail.updateMany({ data: { state: "sent" } }));
    await remindOfPayment(now, hand(id));
    await sendDue(mailQueueOf(now), mailer(), printEnclosed);
    const arrived = post.received.find(({ raw }) => raw.includes(`reminder-1-${written}.pdf`));
    const files = partsOf(arrived?.raw ?? "").filter((part) => part.name.endsWith(".pdf"));
    expect(files.map((file) => file.name)).toEqual([`reminder-1-${written}.pdf`, `invoice-${written}.pdf`]);
    expect(await pdfText(files[0]?.content ?? new Uint8Array())).toContain("Paymentreminder");
  });

  it("is recorded without a mail where it is handed over, and refused in words where no letter can go", async () => {
    const { id, dueOn } = await issued(a);
    await a.write((tx) => tx.customer.updateMany({ data: { email: "" } }));
    const now = late(a, dueOn, 9);
    await expect(remindOfPayment(now, hand(id))).rejects.toThrow("This customer has no mail address.");
    expect((await remindersOf(a.read, { invoiceId: id }, dayAfter(dueOn, 9))).sent).toEqual([]);
    await remindOfPayment(now, { ...hand(id), byHand: true });
    expect((await remindersOf(a.read, { invoiceId: id }, dayAfter(dueOn, 9))).sent).toMatchObject([
      { level: 1, mail: null },
    ]);
    expect(await kinds(a)).toEqual([]);
  });
});

describe("what is not reminded of", () => {
  it("is paid, credited, written off or stopped; a stop ends by its day or by hand, and goes over with a merge", async () => {
    const { id, dueOn, grossMinor } = await issued(a);
    const now = late(a, dueOn, 10);
    const due = async (shop = now) => (await dueReminders(shop.read, shop.now)).due.map((one) => one.id);
    expect(await due()).toEqual([id]);

    const stop = await stopReminders(now, { invoiceId: id, reason: "disputed", untilOn: null });
    await expect(remindOfPayment(now, hand(id))).rejects.toThrow(/stopped: disputed/);
    expect(await due()).toEqual([]);
    await endStop(now, stop);
    await expect(endStop(now, stop)).rejects.toThrow(/over already/);
    expect(await due()).toEqual([id]);
    await expect(
      stopReminders(now, { invoiceId: id, reason: "pays Friday", untilOn: dayAfter(dueOn, 9) }),
    ).rejects.toThrow(/has passed/);

    const double = await makeBike(a, "Ines Valdborgh");
    const versions = await a.read.customer.findMany({
      orderBy: { id: "asc" },
      select: { id: true, version: true },
    });
    const customerId = ready.get(a)?.customerId ?? 0;
    await stopReminders(now, { customerId, reason: "pays Friday", untilOn: dayAfter(dueOn, 12) });
    const version = (of: number) => versions.find((one) => one.id === of)?.version ?? 0;
    await mergeCustomers(now, {
      keptId: double.customerId,
      goneId: customerId,
      keptVersion: version(double.customerId),
      goneVersion: version(customerId),
    });
    await expect(remindOfPayment(now, hand(id))).rejects.toThrow(/pays Friday/);
    expect(await due(late(a, dueOn, 12))).toEqual([]);
    expect(await due(late(a, dueOn, 13))).toEqual([id]);

    await recordWriteOff(late(a, dueOn, 13), { invoiceId: id, amountMinor: 10_00, reference: "goodwill" });
    await expect(remindOfPayment(late(a, dueOn, 13), hand(id))).rejects.toThrow(/written off/);
    await takeWriteOffBack(late(a, dueOn, 13), { invoiceId: id, reference: "after all" });
    const money = {
      invoiceId: id,
      method: "transfer" as const,
      paidOn: dayAfter(dueOn, 13),
      amountMinor: grossMinor,
    };
    await recordPayment(late(a, dueOn, 13), money);
    await expect(remindOfPayment(late(a, dueOn, 14), hand(id))).rejects.toThrow("Nothing of this is late.");

    const theirs = await issued(b);
    await creditInvoice(late(b, theirs.dueOn, 9), { id: theirs.id, reason: "Not right" });
    await expect(remindOfPayment(late(b, theirs.dueOn, 10), hand(theirs.id))).rejects.toThrow(
      "Nothing of this is late.",
    );
    expect(await b.read.reminder.count()).toBe(0);
  });

  it("begins anew after a payment in part, and goes on where that payment bounced", async () => {
    const { id, dueOn } = await issued(a);
    await remindOfPayment(late(a, dueOn, 8), hand(id));
    await remindOfPayment(late(a, dueOn, 22), hand(id));
    const paidOn = dayAfter(dueOn, 30);
    const money = { invoiceId: id, method: "transfer" as const, paidOn, amountMinor: 20_00 };
    const paymentId = await recordPayment(late(a, dueOn, 30), money);
    const next = async (days: number) => (await reminderToSend(a.read, id, late(a, dueOn, days).now))?.next;
    expect(await next(31)).toMatchObject({ level: 1, fromDay: dayAfter(dueOn, 37) });
    await recordBounced(late(a, dueOn, 33), {
      paymentId,
      paidOn: dayAfter(dueOn, 33),
      reference: "no cover",
    });
    expect(await next(34)).toMatchObject({ level: 3, fromDay: dayAfter(dueOn, 36) });
    await remindOfPayment(late(a, dueOn, 40), hand(id));
    expect(
      (await a.read.reminder.findMany({ orderBy: { id: "asc" } })).map((one) => [one.level, one.turn]),
    ).toEqual([
      [1, 0],
      [2, 0],
      [3, 0],
    ]);
  });
});

describe("a reminder by itself", () => {
  it("goes only of the levels that the shop ticked, each once, however often and however many at once", async () => {
    const { id, dueOn } = await issued(a);
    const theirs = await issued(b);
    const round = (shop: ShopHandle, days: number) => reminderRound(late(shop, dueOn, days), ORIGIN);
    expect([await round(a, 10), await wantsLetters(a)]).toEqual([0, false]);
    await saveReminderTerms(a, { ...terms({ automatic: [true, false, true] }), version: 0 });
    expect(await wantsLetters(a)).toBe(true);
    expect(await round(a, 6)).toBe(0);
    const two = await Promise.all([round(a, 7), round(a, 7), round(a, 7)]);
    expect(two.reduce((sum, one) => sum + one, 0)).toBe(1);
    expect(await round(a, 22)).toBe(0);
    expect(await round(a, 40)).toBe(0);
    await remindOfPayment(late(a, dueOn, 41), hand(id));
    expect(await round(a, 54)).toBe(0);
    expect(await round(a, 55)).toBe(1);
    expect(await round(a, 56)).toBe(0);
    expect(await kinds(a)).toEqual(["paymentReminder", "paymentReminder2", "paymentReminder3"]);
    expect((await a.read.reminder.findMany({ orderBy: { id: "asc" } })).map((one) => one.automatic)).toEqual([
      true,
      false,
      true,
    ]);
    expect([await round(b, 30), await kinds(b)]).toEqual([0, []]);
    expect(theirs.id).toBeGreaterThan(0);
  });

  it("does not go long after, at night, to whoever wants no letters, nor again of what was reminded of before", async () => {
    const { id, dueOn } = await issued(a);
    await saveReminderTerms(a, { ...terms({ automatic: [true, true, true] }), version: 0 });
    expect(await reminderRound(late(a, dueOn, 68), ORIGIN)).toBe(0);
    const night = as(a, { now: new Date(`${dayAfter(dueOn, 9)}T18:00:00Z`) });
    expect((await letterRound(night, ORIGIN)).payments).toBe(0);
    await a.write((tx) => tx.customer.updateMany({ data: { noLetters: true } }));
    expect(await reminderRound(late(a, dueOn, 9), ORIGIN)).toBe(0);
    await a.write((tx) => tx.customer.updateMany({ data: { noLetters: false } }));
    // A mail from before reminders were kept as such counts as the first one.
    const at = late(a, dueOn, 8).now;
    const mail = {
      to: "customer@example.com",
      subject: "s",
      text: "t",
      letter: "paymentReminder",
      noun: "invoice",
    };
    await a.write((tx) => tx.mail.create({ data: { ...mail, nounId: id, createdAt: at } }));
    expect(await reminderRound(late(a, dueOn, 9), ORIGIN)).toBe(0);
    expect(await reminderRound(late(a, dueOn, 22), ORIGIN)).toBe(1);
    expect(await kinds(a)).toEqual(["paymentReminder", "paymentReminder2"]);
  });

  it("is sent together with others once they are looked at, without those that changed meanwhile", async () => {
    const one = await issued(a);
    const two = await issued(a);
    const now = late(a, one.dueOn, 9);
    const { due } = await dueReminders(now.read, now.now);
    expect(due.map((each) => [each.id, each.next.level])).toEqual([
      [one.id, 1],
      [two.id, 1],
    ]);
    await stopReminders(now, { invoiceId: two.id, reason: "disputed", untilOn: null });
    const reminders = due.map((each) => ({ id: each.id, level: each.next.level }));
    const answer = await sendReminders(now, { reminders, origin: ORIGIN });
    expect([answer.sent, answer.left]).toEqual([1, [expect.stringContaining("disputed")]]);
    expect((await sendReminders(now, { reminders, origin: ORIGIN })).sent).toBe(0);
    expect(await kinds(a)).toEqual(["paymentReminder"]);
  });

  it("is written once by processes side by side, and after one that was killed on its way", {
    timeout: 120_000,
  }, async () => {
    const invoices = [await issued(a), await issued(a), await issued(a), await issued(a)];
    await saveReminderTerms(a, { ...terms({ automatic: [true, true, false] }), version: 0 });
    const { dueOn } = invoices[0] as (typeof invoices)[number];
    const at = (days: number) => late(a, dueOn, days).now.toISOString();
    await workThenKill("remindUntilKilled.ts", [a.database, at(8)], { ms: 60, begun: "begun" });
    const ran = await atOnce<{ written: number }>(
      [1, 2].map(() => ["tests/support/remindMany.ts", a.database, at(8)]),
    );
    const kept = await a.read.reminder.findMany({ select: { invoiceId: true, level: true, mailId: true } });
    expect(ran.reduce((sum, { written }) => sum + written, 0)).toBeLessThanOrEqual(invoices.length);
    expect(kept.map((one) => [one.invoiceId, one.level]).sort()).toEqual(
      invoices.map(({ id }) => [id, 1]).sort(),
    );
    // Every mail is of a kept reminder, with its paper and the invoice.
    const mails = await a.read.mail.findMany({ where: { letter: "paymentReminder" }, select: { id: true } });
    expect(mails.map((mail) => mail.id).sort()).toEqual(kept.map((one) => one.mailId).sort());
    expect(
      await a.read.mailAttachment.count({ where: { mailId: { in: mails.map((mail) => mail.id) } } }),
    ).toBe(8);
  });

  it("is set for days that rise, over the version that was seen", async () => {
    await expect(saveReminderTerms(a, { ...terms({ days: [7, 7, 35] }), version: 0 })).rejects.toThrow(
      /comes after/,
    );
    await saveReminderTerms(a, { ...terms(), version: 0 });
    await expect(saveReminderTerms(a, { ...terms(), version: 0 })).rejects.toThrow(/meanwhile/);
    await saveReminderTerms(a, { ...terms({ days: [3, 9, 12] }), version: 1 });
    await expect(saveReminderTerms(a, { ...terms(), version: 1 })).rejects.toThrow(/meanwhile/);
  });
});

describe("a reminder's fee", () => {
  it("is charged on the customer's next invoice, taxed as the shop says, once; or waived", async () => {
    for (const shop of [a, b]) {
      const { id, dueOn } = await issued(shop);
      await saveReminderTerms(shop, { ...terms({ fees: [30_00, 40_00, 0] }), feeTaxMark: "O", version: 0 });
      const now = late(shop, dueOn, 23);
      await remindOfPayment(late(shop, dueOn, 8), hand(id));
      await remindOfPayment(now, hand(id));
      const customerId = ready.get(shop)?.customerId ?? 0;
      const open = async () => (await openFees(shop.read, { customerId })).map(({ fee }) => fee.minor);
      expect(await open()).toEqual([30_00, 40_00]);
      const [first] = await openFees(shop.read, { customerId });
      await waiveFee(now, { reminderId: first?.reminderId ?? 0, reason: "A good customer" });
      await expect(waiveFee(now, { reminderId: first?.reminderId ?? 0, reason: "Again" })).rejects.toThrow(
        /not open/,
      );
      expect(await open()).toEqual([40_00]);

      const { jobId, grossMinor } = await readyJob(now, ready.get(shop));
      const draft = async () => {
        const draftId = await draftInvoice(now, { jobId, basis: "fixed" });
        return { id: draftId, version: (await invoiceNow(shop, draftId)).version };
      };
      const gone = await draft();
      await chargeFees(now, gone);
      expect(await open()).toEqual([]);
      await discardDraft(now, { id: gone.id, version: (await invoiceNow(shop, gone.id)).version });
      expect(await open()).toEqual([40_00]);

      const kept = await draft();
      await chargeFees(now, kept);
      await expect(chargeFees(now, { id: kept.id, version: kept.version + 1 })).rejects.toThrow(/No fee/);
      const invoiceId = await issuedNow(now, kept.id);
      const doc = storedInvoice((await invoiceNow(shop, invoiceId)).frozen);
      const line = doc.lines.find((one) => one.key.startsWith("fee-"));
      expect([line?.shownMinor, line?.netMinor, line?.taxCategory, doc.grossMinor]).toEqual([
        40_00,
        40_00,
        "O",
        grossMinor + 40_00,
      ]);
      expect(await problemsOf(shop)).toEqual([]);
      // The invoice that was reminded of stays as it was issued.
      expect((await invoiceNow(shop, id)).grossMinor).toBe(
        storedInvoice((await invoiceNow(shop, id)).frozen).grossMinor,
      );
    }
  });

  async function issuedNow(shop: ShopHandle, id: number): Promise<number> {
    return issueInvoice(shop, { id, version: (await invoiceNow(shop, id)).version });
  }
});

it("a fee that is open is found behind any number that are charged, in its own shop", async () => {
  const { id } = await issued(a);
  await a.write(async (tx) => {
    await tx.reminder.createMany({
      data: Array.from({ length: 120 }, (_, n) => ({
        invoiceId: id,
        level: 1,
        turn: 1000 + n,
        onDay: "2026-12-10",
        leftMinor: 1,
        feeMinor: 500,
        automatic: false,
        frozen: {},
        hash: "",
        at: a.now,
      })),
    });
    const rows = await tx.reminder.findMany({ where: { invoiceId: id }, orderBy: { id: "asc" } });
    await tx.invoiceEdit.createMany({
      data: rows.slice(0, 117).map((row) => ({
        invoiceId: id,
        key: `fee-${row.id}`,
        act: "add",
        reason: "",
        personName: "Test Owner",
        at: a.now,
      })),
    });
  });
  expect(await openFees(a.read, { invoiceId: id })).toHaveLength(3);
  expect(await openFees(b.read, { invoiceId: id })).toEqual([]);
});
