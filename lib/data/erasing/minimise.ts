import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { NO_JSON } from "@/lib/db/noJson";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { withoutGuards } from "@/lib/db/withoutGuards";
import { Refusal } from "@/lib/domain/refusal";
import { hashOf } from "../common/hash";
import { type KeptNoun, recordsOver } from "./keeping";
import { cleanedJson, erasedName } from "./known";
import { namesIn, withoutPerson } from "./minimised";

const json = (value: unknown) => (value === null ? NO_JSON : (value as Prisma.InputJsonValue));

/**
 * Takes the person out of records of erased customers whose time is over, a round of them in one transaction; the guards of ledgers and
 * documents are away for it alone. Sums, tax and numbers stay, and what is frozen has the hash of its new text. Answers how many.
 */
export async function minimiseOver(shop: ShopHandle): Promise<number> {
  const over = await recordsOver(shop);
  if (over.length === 0) return 0;
  await shop.write((tx) =>
    withoutGuards(tx, shop, async () => {
      for (const { id, customerId, noun, nounId } of over) {
        await demandOne(
          tx.keptRecord.updateMany({ where: { id, minimisedAt: null }, data: { minimisedAt: shop.now } }),
          () => new Refusal("This record was minimised meanwhile.", "Nothing is to be done.", {}, "conflict"),
        );
        await MINIMISE[noun as KeptNoun](tx, nounId, customerId);
        await audit(tx, shop, "minimised, its time is over", noun, nounId);
      }
    }),
  );
  return over.length;
}

type Minimise = (tx: ShopTx, id: number, customerId: number) => Promise<void>;

const MINIMISE: Readonly<Record<KeptNoun, Minimise>> = {
  async invoice(tx, id, customerId) {
    const row = await tx.invoice.findUniqueOrThrow({
      where: { id },
      select: { frozen: true, saleId: true, reminders: { select: { id: true, frozen: true } } },
    });
    const frozen = withoutPerson(row.frozen, customerId);
    await tx.invoice.update({
      where: { id },
      data: { frozen: json(frozen), hash: hashOf(frozen), kept: NO_JSON, reason: "", searchKey: "" },
      select: { id: true },
    });
    for (const reminder of row.reminders) {
      const text = withoutPerson(reminder.frozen, customerId);
      await tx.reminder.update({
        where: { id: reminder.id },
        data: { frozen: text as Prisma.InputJsonValue, hash: hashOf(text) },
        select: { id: true },
      });
    }
    await tx.einvoiceOrder.deleteMany({ where: { invoiceId: id } });
    const sale = row.saleId === null ? [] : [{ saleId: row.saleId }];
    await minimisePayments(tx, { OR: [{ invoiceId: id }, ...sale] }, customerId);
  },

  async revision(tx, id, customerId) {
    const row = await tx.quoteRevision.findUniqueOrThrow({
      where: { id },
      select: { frozen: true, terms: true, works: { select: { id: true, data: true } } },
    });
    const texts = namesIn(row.frozen, customerId);
    const frozen = withoutPerson(row.frozen, customerId);
    const hash = frozen === null ? null : hashOf(frozen);
    await tx.quoteRevision.update({
      where: { id },
      data: { frozen: json(frozen), hash, terms: json(cleanedJson(row.terms, texts)), facts: NO_JSON },
      select: { id: true },
    });
    for (const work of row.works)
      await tx.quoteWork.update({
        where: { id: work.id },
        data: { data: json(cleanedJson(work.data, texts)) },
        select: { id: true },
      });
    await tx.acceptance.updateMany({
      where: { revisionId: id },
      data: { typedName: erasedName(customerId), agent: "", ...(hash === null ? {} : { shownHash: hash }) },
    });
  },

  async job(tx, id, customerId) {
    await tx.jobYes.updateMany({ where: { jobId: id }, data: { saidBy: erasedName(customerId), note: "" } });
    await minimisePayments(tx, { jobId: id }, customerId);
  },
};

/** Amounts, days and methods of payments stay; the bank's lines that they were booked from say no longer who paid. */
async function minimisePayments(
  tx: ShopTx,
  where: Prisma.PaymentWhereInput,
  customerId: number,
): Promise<void> {
  await tx.payment.updateMany({ where, data: { reference: "" } });
  const paid = { some: { payments: { some: { payment: where } } } };
  await tx.bankLine.updateMany({
    where: { decisions: paid },
    data: { text: "", payer: erasedName(customerId) },
  });
}
