import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { accountLines } from "@/lib/data/chasing/accounts";
import { statementPaper } from "@/lib/data/chasing/statement";
import { mailStatement } from "@/lib/data/chasing/statementMail";
import { enclosedWith } from "@/lib/data/mail/attachments";
import { mailQueueOf } from "@/lib/data/mail/queue";
import { payFromBalance } from "@/lib/data/payments/balance";
import { recordBounced } from "@/lib/data/payments/bounced";
import { recordDeposit, recordPayment } from "@/lib/data/payments/record";
import { recordForSeveral } from "@/lib/data/payments/several";
import { recordWriteOff } from "@/lib/data/payments/writeOff";
import type { ShopHandle } from "@/lib/db/shop";
import { printEnclosed } from "@/lib/documents/enclosed";
import { amountText } from "@/lib/documents/format";
import { statementPdf } from "@/lib/documents/statement";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { pdfText } from "../support/pdfText";
import { as, twoShops } from "../support/shops";
import { type MailServer, mailServer, partsOf } from "../support/smtp";

const FIRST = "2026-11-25";
const day = (days: number) => dayAfter(FIRST, days);
const at = (shop: ShopHandle, days: number) =>
  as(shop, { now: new Date(shop.now.getTime() + days * 86_400_000) });
const transfer = (days: number, reference = "") => ({
  method: "transfer" as const,
  paidOn: day(days),
  reference,
});

let a: ShopHandle;
let b: ShopHandle;
let post: MailServer;
/** The customer of each shop with three jobs, by what they come to. */
const people = new Map<ShopHandle, { customerId: number; gross: number }>();

beforeAll(async () => {
  post = await mailServer();
  reconfigure({ SMTP_URL: post.url, MAIL_FROM: "desk@saltpan.example" });
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
  for (const shop of [a, b]) people.set(shop, await history(shop));
});
afterAll(async () => {
  reconfigure({ SMTP_URL: undefined, MAIL_FROM: undefined });
  await post.close();
});

/** A deposit, three invoices, a payment of two with some over, one that bounced and a write-off. */
async function history(shop: ShopHandle) {
  const one = await readyJob(shop);
  const [two, three] = [await readyJob(shop, one.ready), await readyJob(shop, one.ready)];
  const { customerId } = one.ready;
  await recordDeposit(shop, { jobId: one.jobId, amountMinor: 40_00, ...transfer(0) });
  const first = await issuedInvoice(at(shop, 1), one.jobId);
  const second = await issuedInvoice(at(shop, 2), two.jobId);
  await recordForSeveral(at(shop, 10), {
    customerId,
    invoices: [first, second],
    amountMinor: one.grossMinor - 40_00 + two.grossMinor + 9_00,
    keepRest: true,
    ...transfer(10, "both"),
  });
  const third = await issuedInvoice(at(shop, 12), three.jobId);
  await payFromBalance(at(shop, 13), { invoiceId: third });
  await recordPayment(at(shop, 20), { invoiceId: third, amountMinor: 50_00, ...transfer(20, "too early") });
  const paid = await shop.read.payment.findFirstOrThrow({ where: { reference: "too early" } });
  await recordBounced(at(shop, 22), { paymentId: paid.id, paidOn: day(22), reference: "no cover" });
  await recordWriteOff(at(shop, 30), { invoiceId: third, amountMinor: 1_00, reference: "rounding" });
  return { customerId, gross: one.grossMinor };
}

const paperOf = async (shop: ShopHandle, from: number, to: number) => {
  const { customerId } = people.get(shop) as { customerId: number };
  const paper = await statementPaper(
    shop.read,
    customerId,
    { from: day(from), to: day(to) },
    at(shop, 60).now,
  );
  if (!paper) throw new Error("No such customer.");
  return paper;
};

/** The other mails of the shop are taken for sent: printing them all takes long. */
const onlyThis = (shop: ShopHandle, id: number) =>
  shop.write((tx) => tx.mail.updateMany({ where: { id: { not: id } }, data: { state: "sent" } }));

describe("a customer's statement", () => {
  it("has every document and all money in order, and a balance after each", async () => {
    for (const shop of [a, b]) {
      const { gross } = people.get(shop) as { gross: number };
      const { entries, openingMinor, closingMinor } = await paperOf(shop, 0, 60);
      expect(openingMinor).toBe(0);
      const third = gross - 9_00;
      expect(entries.map(({ on, kind, minor, balanceMinor }) => [on, kind, minor, balanceMinor])).toEqual([
        [day(0), "deposit", -40_00, -40_00],
        [day(1), "invoice", gross, gross - 40_00],
        [day(2), "invoice", gross, 2 * gross - 40_00],
        [day(10), "payment", -(2 * gross - 40_00 + 9_00), -9_00],
        [day(12), "invoice", gross, third],
        [day(20), "payment", -50_00, third - 50_00],
        [day(22), "bounced", 50_00, third],
        [day(30), "writeOff", -1_00, third - 1_00],
      ]);
      expect(entries[3]?.numbers).toHaveLength(2);
      expect(closingMinor).toBe(third - 1_00);
    }
  });

  it("begins with what stood before, and ends with what the aged list says, whichever days it is of", async () => {
    for (const shop of [a, b])
      for (const [from, to] of [
        [0, 9],
        [1, 1],
        [5, 25],
        [11, 60],
        [60, 90],
      ] as const) {
        const before = await paperOf(shop, -10, from - 1);
        const paper = await paperOf(shop, from, to);
        expect(paper.openingMinor).toBe(before.closingMinor);
        const { lines } = await accountLines(shop.read, day(to));
        expect(paper.closingMinor).toBe(lines.reduce((sum, line) => sum + line.minor, 0));
        expect(Object.values(paper.ageing).reduce((sum, minor) => sum + minor, 0)).toBe(paper.closingMinor);
      }
  });

  it("prints the figures of its value, the same bytes each time, in the customer's language", async () => {
    for (const shop of [a, b]) {
      const paper = await paperOf(shop, 5, 60);
      const pdf = await statementPdf(paper);
      expect(Buffer.from(await statementPdf(paper)).equals(Buffer.from(pdf))).toBe(true);
      const text = await pdfText(pdf);
      const figure = (minor: number) =>
        amountText(minor, paper.currency, paper.locale).replace(/[\s\u00a0]+/gu, "");
      for (const entry of paper.entries) {
        expect(text).toContain(figure(Math.abs(entry.minor)));
        expect(text).toContain(figure(entry.balanceMinor));
      }
      expect(text).toContain(figure(paper.openingMinor));
      expect(text).toContain(shop === a ? "Statementofaccount" : "Kontoutskrift");
      expect(text).toContain("Account12-3456");
    }
  });

  it("goes by mail with its paper, as it stood then, once for one request", async () => {
    for (const shop of [a, b]) {
      post.received.length = 0;
      const { customerId, gross } = people.get(shop) as { customerId: number; gross: number };
      const later = at(shop, 60);
      const input = { customerId, from: day(5), to: day(60), words: "As you asked.", key: "statement-key" };
      expect(await mailStatement(later, input)).toEqual({ to: "customer@example.com" });
      await mailStatement(later, input);
      const mail = await shop.read.mail.findFirstOrThrow({ where: { letter: "statement" } });
      expect(await enclosedWith(shop, mail.id)).toMatchObject([
        { document: "statement", printed: { closingMinor: gross - 10_00 } },
      ]);
      expect(mail.text).toContain("As you asked.");
      await onlyThis(shop, mail.id);
      await sendDue(mailQueueOf(later), mailer(), printEnclosed);
      const [arrived, ...more] = post.received.filter(({ raw }) => raw.includes("statement-"));
      expect(more).toEqual([]);
      const file = partsOf(arrived?.raw ?? "").find((part) => part.name.endsWith(".pdf"));
      expect(await pdfText(file?.content ?? new Uint8Array())).toContain(
        shop === a ? "Statementofaccount" : "Kontoutskrift",
      );
    }
    expect(await b.read.mail.count({ where: { letter: "statement" } })).toBe(1);
  });

  it("asks for nothing once the account is even, and is of nobody where there is no such customer", async () => {
    const { customerId } = people.get(a) as { customerId: number };
    const third = await a.read.invoice.findFirstOrThrow({
      where: { kind: "invoice" },
      orderBy: { id: "desc" },
    });
    const amountMinor = third.grossMinor - third.prepaidMinor - third.paidMinor;
    await recordPayment(at(a, 40), { invoiceId: third.id, amountMinor, ...transfer(40, "rest") });
    const paper = await paperOf(a, 5, 60);
    expect([paper.closingMinor, paper.ageing]).toEqual([0, {}]);
    expect(await pdfText(await statementPdf(paper))).not.toContain("Account12-3456");
    expect(await statementPaper(b.read, customerId + 40, { from: day(0), to: day(9) }, b.now)).toBeNull();
  });
});
