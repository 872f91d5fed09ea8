import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type NumberStyle, numberDue, numberIn, writtenNumber } from "@/lib/domain/numbers/series";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { type FirstNumber, NUMBERED, NUMBERED_KINDS, type NumberedKind } from "@/lib/schemas/numbers";

export interface Series extends NumberStyle {
  readonly kind: NumberedKind;
  readonly name: string;
  /** How papers write the next one; of a yearly series, if it is taken this year. */
  readonly nextWritten: string;
  /** The number that the next one gets. */
  readonly next: number;
  /** True once one was issued: from then on the series goes on by itself. */
  readonly begun: boolean;
}

type Db = Pick<ShopTx, "counter" | "quote" | "job" | "invoice" | "purchaseOrder">;

/** Every series of numbers of the shop, and where it stands. */
export async function numberSeries(shop: ShopHandle): Promise<Series[]> {
  const counters = await shop.read.counter.findMany({
    where: { name: { in: NUMBERED_KINDS } },
    select: { name: true, next: true, prefix: true, yearly: true },
    orderBy: { name: "asc" },
  });
  const year = await yearOf(shop.read, shop.now);
  return Promise.all(
    NUMBERED_KINDS.map(async (kind) => {
      const { name, first } = NUMBERED[kind];
      const found = counters.find((one) => one.name === kind);
      const { prefix, yearly } = found ?? { prefix: "", yearly: false };
      const next = numberDue({ prefix, yearly }, found?.next ?? first, year);
      const nextWritten = writtenNumber({ prefix, yearly }, next);
      return {
        kind,
        name,
        prefix,
        yearly,
        next,
        nextWritten,
        begun: await hasBegun(shop.read, kind),
      };
    }),
  );
}

/**
 * Begins a series at a number of the shop's own, so that it goes on where its papers ended, and says how its numbers are written;
 * of a yearly series, at a place in this year. Only before the first one.
 */
export async function beginSeries(
  shop: ShopHandle,
  input: Pick<FirstNumber, "kind" | "first"> & Partial<NumberStyle> & { key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "began a series of numbers", input, async () => {
      const { kind, first, prefix = "", yearly = false } = input;
      const next = yearly ? numberIn(await yearOf(tx, shop.now), first) : first;
      const style = { prefix, yearly };
      // Taken first, so that whoever issues the first one at this moment waits, or has issued it.
      await tx.counter.upsert({ where: { name: kind }, create: { name: kind, next, ...style }, update: {} });
      if (await hasBegun(tx, kind))
        throw new Refusal(
          `${NUMBERED[kind].name} are numbered already, and a series has no gaps.`,
          "The next one goes on from the last.",
          {},
          "conflict",
        );
      await tx.counter.update({ where: { name: kind }, data: { next, ...style } });
      await audit(tx, shop, "chose first number", kind, null, {
        first: writtenNumber(style, next),
        ...(yearly ? { yearly } : {}),
      });
      return next;
    }),
  );
}

/** The year that it is in the shop. */
async function yearOf(db: Pick<ShopTx, "settings">, now: Date): Promise<number> {
  const { zone } = await db.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  return Number(dayIn(zone, now).slice(0, 4));
}

async function hasBegun(db: Db, kind: NumberedKind): Promise<boolean> {
  const any = { select: { id: true }, orderBy: { id: "asc" } } as const;
  const found = await {
    quote: () => db.quote.findFirst(any),
    job: () => db.job.findFirst(any),
    order: () => db.purchaseOrder.findFirst(any),
    invoice: () => db.invoice.findFirst({ where: { kind: "invoice", number: { not: null } }, ...any }),
    creditNote: () => db.invoice.findFirst({ where: { kind: "creditNote" }, ...any }),
    receipt: () => db.invoice.findFirst({ where: { kind: "receipt" }, ...any }),
  }[kind]();
  return found !== null;
}
