import { z } from "zod";
import type { ShopTx } from "@/lib/db/shop";
import {
  BANK_FIELDS,
  type BankColumns,
  type BankField,
  DATE_ORDERS,
  type DateOrder,
} from "@/lib/domain/bank/types";

/** How the shop's bank writes its lists: by headings, so that a column that moves is found again. */
export interface BankFormat {
  readonly columns: Readonly<Record<BankField, string | null>>;
  readonly dates: DateOrder;
  readonly mark: "." | ",";
}

const Kept = z.object({
  columns: z.object(
    Object.fromEntries(BANK_FIELDS.map((field) => [field, z.string().nullable()])) as Record<
      BankField,
      z.ZodNullable<z.ZodString>
    >,
  ),
  dates: z.enum(DATE_ORDERS as [DateOrder, ...DateOrder[]]),
  mark: z.enum([".", ","]),
});

/** What was chosen with the last list; null before the first. */
export async function bankFormat(db: Pick<ShopTx, "bankFormat">): Promise<BankFormat | null> {
  const row = await db.bankFormat.findUnique({
    where: { id: 1 },
    select: { columns: true, dates: true, mark: true },
  });
  return row && Kept.parse(row);
}

/** Remembers what was chosen. */
export async function keepFormatIn(
  tx: ShopTx,
  headings: readonly string[],
  columns: BankColumns,
  { dates, mark }: Pick<BankFormat, "dates" | "mark">,
): Promise<void> {
  const named = Object.fromEntries(
    BANK_FIELDS.map((field) => [field, columns[field] === null ? null : (headings[columns[field]] ?? null)]),
  );
  const data = { columns: named, dates, mark };
  await tx.bankFormat.upsert({
    where: { id: 1 },
    create: { id: 1, ...data },
    update: data,
    select: { id: true },
  });
}
