import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { PaymentKind } from "@/lib/domain/invoices/held";
import type { MoneyPart } from "@/lib/domain/invoices/settle";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { demandDrawerOpen } from "../endOfDay/last";
import { demandOpenToPay, firstOpenDay } from "../shop/closing";

export interface MoneyInput extends MoneyPart {
  readonly paidOn: string;
  readonly reference?: string;
  readonly key?: string | undefined;
}

interface Terms {
  readonly currency: string;
  readonly locale: string;
  readonly cashRoundingMinor: number;
  readonly zone: string;
}

/** How the shop counts money; refuses a day that has not come. Where today is closed, money is of the first open day. */
export async function termsIn(tx: ShopTx, shop: ShopHandle, paidOn: string): Promise<Terms> {
  const terms = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { currency: true, locale: true, cashRoundingMinor: true, zone: true },
  });
  if (paidOn > (await firstOpenDay(tx, dayIn(terms.zone, shop.now))))
    throw new Refusal("That day has not come yet.", "Enter the day the money moved.", {
      paidOn: "Not in the future.",
    });
  return terms;
}

/** Counts money on an issued invoice as it was seen. */
export async function addPaid(
  tx: ShopTx,
  row: { id: number; version: number },
  minor: number,
): Promise<void> {
  await demandOne(
    tx.invoice.updateMany({
      where: { id: row.id, state: "issued", version: row.version },
      data: { paidMinor: { increment: minor }, version: { increment: 1 } },
    }),
    () =>
      new Refusal("This invoice has just been changed by someone else.", "Look at it again.", {}, "conflict"),
  );
}

export interface Written extends Omit<MoneyInput, "key" | "method"> {
  readonly kind: PaymentKind;
  /** How it moved; what moves no money says nothing. */
  readonly method: string;
  /** The row that it takes back. */
  readonly reversesId?: number;
  /** The job that it belongs to, or the counter sale. */
  readonly jobId?: number;
  readonly saleId?: number;
  readonly invoiceId: number | null;
  readonly roundingMinor: number;
}

/** Appends one row of money: the one door for it. Refused where its day is closed, or, in cash, where that day's drawer was counted. */
export async function writeMoneyIn(tx: ShopTx, shop: ShopHandle, row: Written): Promise<number> {
  const { kind, jobId = null, saleId = null, invoiceId, method, amountMinor, roundingMinor, paidOn } = row;
  await demandOpenToPay(tx, paidOn);
  if (method === "cash") await demandDrawerOpen(tx, shop, paidOn);
  const { id } = await tx.payment.create({
    data: {
      kind,
      jobId,
      saleId,
      invoiceId,
      method,
      amountMinor,
      roundingMinor,
      paidOn,
      reference: row.reference ?? "",
      reversesId: row.reversesId ?? null,
      staffId: shop.by.staffId,
      at: shop.now,
    },
    select: { id: true },
  });
  const of = saleId === null ? { jobId } : { saleId };
  await audit(tx, shop, kind, "payment", id, {
    ...of,
    invoiceId,
    amountMinor,
    roundingMinor,
    method,
    ...(row.reversesId === undefined ? {} : { reverses: row.reversesId }),
  });
  return id;
}
