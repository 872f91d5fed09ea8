import { beforeEach, describe, expect, it } from "vitest";
import { bookLine } from "@/lib/data/bank/book";
import { waitingLines } from "@/lib/data/bank/lines";
import { takeBankListIn } from "@/lib/data/bank/takeIn";
import { enclosedWith } from "@/lib/data/mail/attachments";
import { recordBounced } from "@/lib/data/payments/bounced";
import { mailDepositRequest, mailPaymentPaper } from "@/lib/data/payments/paperMail";
import { depositRequest, paymentPaper } from "@/lib/data/payments/papers";
import { recordDeposit, recordRefund } from "@/lib/data/payments/record";
import { saveAccount } from "@/lib/data/shop/account";
import type { ShopHandle } from "@/lib/db/shop";
import { printEnclosed } from "@/lib/documents/enclosed";
import { moneyPdf } from "@/lib/documents/moneyPaper";
import { payRows } from "@/lib/domain/money/payAsk";
import { AccountSchema } from "@/lib/schemas/account";
import { BankListSchema } from "@/lib/schemas/bank";
import { nameShop, readyJob } from "../support/invoices";
import { pdfText } from "../support/pdfText";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
const paidOn = "2026-11-25";
const origin = "https://shop.example";

beforeEach(async () => {
  ({ a, b } = await twoShops());
  for (const shop of [a, b]) {
    await nameShop(shop, { pricesIncludeTax: shop === a });
    await shop.write((tx) => tx.settings.update({ where: { id: 1 }, data: { depositBp: 2000 } }));
  }
  await saveAccount(
    b,
    AccountSchema.parse({
      version: "0",
      form: "no",
      holder: "Fjellrev Motor AS",
      number: "99990000014",
      kid: "on",
    }),
  );
});

const solid = (text: string) => text.replace(/[\s\u00a0]+/gu, "");
const lastMail = async (shop: ShopHandle) => {
  const mail = await shop.read.mail.findFirstOrThrow({ orderBy: { id: "desc" } });
  const [enclosed] = await enclosedWith(shop, mail.id);
  if (!enclosed) throw new Error("Nothing is enclosed.");
  return { ...mail, enclosed, pdf: await pdfText((await printEnclosed(enclosed)).content) };
};

describe("papers about money that are no invoices", () => {
  it("ask for a deposit with how to pay it, and give a receipt for it; what goes back has a note", async () => {
    for (const shop of [a, b]) {
      const { jobId } = await readyJob(shop);
      await shop.write((tx) => tx.customer.updateMany({ data: { email: "kari@mail.example" } }));
      const { printed } = await depositRequest(shop.read, jobId, shop.now);
      expect(printed.totalMinor).toBeGreaterThan(0);
      await mailDepositRequest(shop, { jobId, origin, key: "ask" });
      await mailDepositRequest(shop, { jobId, origin, key: "ask" });
      expect(await shop.read.mail.count({ where: { letter: "depositRequest" } })).toBe(1);
      const asked = await lastMail(shop);
      expect(asked.enclosed.name).toBe(`deposit-request-${printed.number}.pdf`);
      expect(asked.pdf).toBe(await pdfText(await moneyPdf(printed)));
      for (const { value } of payRows(printed.ask ?? expect.fail())) {
        expect(asked.pdf).toContain(solid(value));
        expect(asked.text).toContain(value);
      }
      const minor = printed.totalMinor;
      const id = await recordDeposit(shop, {
        jobId,
        amountMinor: minor - 100,
        method: "transfer",
        paidOn,
        also: { method: "card", amountMinor: 100 },
      });
      await expect(depositRequest(shop.read, jobId, shop.now)).rejects.toThrow(/No deposit of job/);
      const receipt = (await paymentPaper(shop.read, id)).printed;
      expect([receipt.totalMinor, receipt.lines.map((line) => [line.method, line.minor])]).toEqual([
        minor,
        [
          ["transfer", minor - 100],
          ["card", 100],
        ],
      ]);
      await mailPaymentPaper(shop, { paymentId: id, origin });
      expect((await lastMail(shop)).pdf).toMatch(
        shop === a ? /ReceiptofpaymentPayment1/ : /KvitteringforbetalingBetaling1/,
      );
      const back = await recordRefund(shop, {
        jobId,
        amountMinor: 100,
        method: "card",
        paidOn,
        reference: "Agreed so",
      });
      expect((await paymentPaper(shop.read, back)).printed).toMatchObject({
        kind: "paidBack",
        totalMinor: 100,
        said: "Agreed so",
      });
      await expect(paymentPaper(shop.read, 999)).rejects.toMatchObject({ kind: "missing" });
    }
    expect(await a.read.mail.count()).toBe(await b.read.mail.count());
  });

  it("are not of money that was taken back, nor of another customer's in the same moment", async () => {
    const { jobId } = await readyJob(a);
    const id = await recordDeposit(a, { jobId, amountMinor: 500, method: "transfer", paidOn });
    await recordBounced(a, { paymentId: id, paidOn, reference: "No cover" });
    await expect(paymentPaper(a.read, id)).rejects.toThrow(/taken back/);
    await expect(paymentPaper(a.read, id + 1)).rejects.toThrow(/no receipt/);
    await expect(paymentPaper(b.read, id)).rejects.toMatchObject({ kind: "missing" });
  });
});

describe("a deposit on a bank's list", () => {
  it("is known by its KID, and booked as the job's deposit", async () => {
    const { jobId } = await readyJob(b);
    const { printed } = await depositRequest(b.read, jobId, b.now);
    await takeBankListIn(
      b,
      BankListSchema.parse({
        text: `Dato;Beløp;KID\n24.11.2026;${(printed.totalMinor / 100).toFixed(2).replace(".", ",")};${printed.ask?.payTo?.reference}`,
        columns: { date: "0", amount: "1", reference: "2" },
        dates: "dmy",
        mark: ",",
      }),
    );
    const [line] = (await waitingLines(b)).lines;
    expect(line?.proposal).toMatchObject({
      certainty: "certain",
      because: [{ why: "kid" }, { why: "exact" }],
    });
    const takes =
      line?.proposal?.takes.map(({ item, minor }) => ({ kind: item.kind, id: item.id, minor })) ?? [];
    expect(takes).toEqual([{ kind: "deposit", id: jobId, minor: printed.totalMinor }]);
    await bookLine(as(b, {}), { id: line?.id ?? 0, version: 1, takes });
    expect(await b.read.payment.findMany({ select: { kind: true, jobId: true, amountMinor: true } })).toEqual(
      [{ kind: "deposit", jobId, amountMinor: printed.totalMinor }],
    );
  });
});
