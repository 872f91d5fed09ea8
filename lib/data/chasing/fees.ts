import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { AskedFee } from "@/lib/domain/chasing/reminderPaper";
import { e4OfMinor, MILLI } from "@/lib/domain/money/scale";
import { Refusal } from "@/lib/domain/refusal";
import { dayWords } from "@/lib/domain/schedule/days";
import { accountWords } from "@/lib/words/account";
import { customerLocale } from "@/lib/words/language";
import { addLineIn } from "../invoices/edits";
import { invoiceIn } from "../invoices/rows";
import { reminderTerms } from "./terms";

type Reader = Pick<ShopTx, "reminder" | "invoiceEdit">;

/** So many open fees of a customer, or of an invoice, are shown, the oldest first. */
const MOST = 50;

const keyOf = (reminderId: number) => `fee-${reminderId}`;

export interface OpenFee {
  readonly reminderId: number;
  readonly invoice: { readonly id: number; readonly written: string };
  readonly fee: AskedFee;
}

/** Fees that were asked for with reminders and are neither charged on an invoice nor waived. */
export async function openFees(
  db: Reader,
  of: { readonly invoiceId: number } | { readonly customerId: number },
): Promise<OpenFee[]> {
  const open: OpenFee[] = [];
  // No query can compare a charged fee's key with its reminder: they are read on until enough open ones are found.
  for (let after = 0; ; ) {
    const rows = await askedAfter(db, of, after);
    open.push(...(await unchargedOf(db, rows)));
    const last = rows.at(-1);
    if (!last || rows.length < MOST || open.length >= MOST) return open.slice(0, MOST);
    after = last.id;
  }
}

type Asked = Awaited<ReturnType<typeof askedAfter>>[number];

function askedAfter(db: Reader, of: Parameters<typeof openFees>[1], after: number) {
  return db.reminder.findMany({
    where: {
      id: { gt: after },
      feeMinor: { gt: 0 },
      waived: null,
      ...("invoiceId" in of ? of : { invoice: { customerId: of.customerId } }),
    },
    select: {
      id: true,
      level: true,
      onDay: true,
      feeMinor: true,
      invoice: { select: { id: true, written: true } },
    },
    orderBy: { id: "asc" },
    take: MOST,
  });
}

async function unchargedOf(db: Reader, rows: readonly Asked[]): Promise<OpenFee[]> {
  if (rows.length === 0) return [];
  const charged = await db.invoiceEdit.findMany({
    where: { key: { in: rows.map((row) => keyOf(row.id)) } },
    select: { key: true },
    orderBy: { id: "asc" },
  });
  const keys = new Set(charged.map((edit) => edit.key));
  return rows
    .filter((row) => !keys.has(keyOf(row.id)))
    .map(({ id, level, onDay, feeMinor, invoice }) => ({
      reminderId: id,
      invoice,
      fee: { level, onDay, minor: feeMinor },
    }));
}

/**
 * Puts a customer's open fees on a draft of theirs, a line for each, taxed as the shop says. A line that is taken off, or a draft that is
 * discarded, leaves its fee open. Answers the draft's id.
 */
export async function chargeFees(
  shop: ShopHandle,
  input: { readonly id: number; readonly version: number; readonly key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "charged reminder fees", input, async () => {
      const draft = await invoiceIn(tx, input.id);
      const fees = draft.customerId === null ? [] : await openFees(tx, { customerId: draft.customerId });
      if (draft.customerId === null || fees.length === 0)
        throw new Refusal("No fee of this customer is open.", "Look at the draft again.", {}, "conflict");
      const { language } = await tx.customer.findUniqueOrThrow({
        where: { id: draft.customerId },
        select: { language: true },
      });
      const { locale, currency } = await tx.settings.findUniqueOrThrow({
        where: { id: 1 },
        select: { locale: true, currency: true },
      });
      const { feeTaxMark: taxMark } = await reminderTerms(tx);
      const words = accountWords(customerLocale(locale, language));
      let { version } = input;
      for (const { reminderId, invoice, fee } of fees) {
        await addLineIn(
          tx,
          shop,
          { id: draft.id, version },
          {
            key: keyOf(reminderId),
            line: {
              kind: "fixed",
              name: words.feeLine(invoice.written),
              unit: "each",
              quantityMilli: MILLI,
              unitPriceE4: e4OfMinor(fee.minor, currency),
              discountBp: 0,
              taxMark,
            },
            reason: `fee of reminder ${fee.level}, ${dayWords(fee.onDay, locale)}`,
          },
        );
        version = (await invoiceIn(tx, draft.id)).version;
      }
      return draft.id;
    }),
  );
}

/** Asks for a reminder's fee no more. */
export async function waiveFee(
  shop: ShopHandle,
  input: { readonly reminderId: number; readonly reason: string; readonly key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "waived a reminder's fee", input, async () => {
      const { reminderId, reason } = input;
      const row = await tx.reminder.findUnique({
        where: { id: reminderId },
        select: { invoiceId: true, waived: { select: { id: true } } },
      });
      const open =
        row && !row.waived
          ? (await openFees(tx, { invoiceId: row.invoiceId })).find((one) => one.reminderId === reminderId)
          : undefined;
      if (!open)
        throw new Refusal(
          "This fee is not open any more.",
          "Look at it again: it is charged on an invoice, or waived.",
          {},
          "conflict",
        );
      await tx.reminderFeeWaived.create({
        data: { reminderId, reason, personName: shop.by.name, at: shop.now },
        select: { id: true },
      });
      await audit(tx, shop, "waived the fee of", "reminder", reminderId, {
        feeMinor: open.fee.minor,
        reason,
      });
      return reminderId;
    }),
  );
}
