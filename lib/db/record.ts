import { numberDue, writtenNumber } from "@/lib/domain/numbers/series";
import { dayIn } from "@/lib/domain/schedule/days";
import type { Prisma } from "./generated/sqlite/shop/client";
import type { ShopHandle, ShopTx } from "./shop";

/** Appends to the shop's audit trail, in the transaction of what it tells. */
export async function audit(
  tx: ShopTx,
  shop: ShopHandle,
  act: string,
  noun: string,
  nounId: number | null,
  detail?: Prisma.InputJsonValue,
): Promise<void> {
  await tx.auditEntry.create({
    data: {
      at: shop.now,
      personId: shop.by.personId,
      personName: shop.by.name,
      act,
      noun,
      nounId,
      ...(detail === undefined ? {} : { detail }),
    },
    select: { id: true },
  });
}

/** The next number of a gapless series: taken in the transaction that uses it. */
export async function nextNumber(tx: ShopTx, name: string, first = 1): Promise<number> {
  const row = await tx.counter.upsert({
    where: { name },
    create: { name, next: first + 1 },
    update: { next: { increment: 1 } },
    select: { next: true },
  });
  return row.next - 1;
}

/** A number taken, and how papers write it. */
export interface TakenNumber {
  readonly number: number;
  readonly written: string;
}

/** The next number of a gapless series that may have a prefix and begin again each year: taken in the transaction that uses it. */
export async function nextWritten(
  tx: ShopTx,
  shop: ShopHandle,
  name: string,
  first: number,
): Promise<TakenNumber> {
  // Raised first: whoever takes the next one at this moment waits.
  const { next, ...style } = await tx.counter.upsert({
    where: { name },
    create: { name, next: first + 1 },
    update: { next: { increment: 1 } },
    select: { next: true, prefix: true, yearly: true },
  });
  if (!style.yearly) return { number: next - 1, written: writtenNumber(style, next - 1) };
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const number = numberDue(style, next - 1, Number(dayIn(zone, shop.now).slice(0, 4)));
  if (number !== next - 1) await tx.counter.update({ where: { name }, data: { next: number + 1 } });
  return { number, written: writtenNumber(style, number) };
}
