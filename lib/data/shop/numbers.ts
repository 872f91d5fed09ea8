import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { type FirstNumber, NUMBERED, NUMBERED_KINDS, type NumberedKind } from "@/lib/schemas/numbers";

export interface Series {
  readonly kind: NumberedKind;
  readonly name: string;
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
    select: { name: true, next: true },
    orderBy: { name: "asc" },
  });
  return Promise.all(
    NUMBERED_KINDS.map(async (kind) => ({
      kind,
      name: NUMBERED[kind].name,
      next: counters.find((one) => one.name === kind)?.next ?? NUMBERED[kind].first,
      begun: await hasBegun(shop.read, kind),
    })),
  );
}

/** Begins a series at a number of the shop's own, so that it goes on where its papers ended. Only before the first one. */
export async function beginSeries(
  shop: ShopHandle,
  input: FirstNumber & { key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "began a series of numbers", input, async () => {
      const { kind, first: next } = input;
      // Taken first, so that whoever issues the first one at this moment waits, or has issued it.
      await tx.counter.upsert({ where: { name: kind }, create: { name: kind, next }, update: {} });
      if (await hasBegun(tx, kind))
        throw new Refusal(
          `${NUMBERED[kind].name} are numbered already, and a series has no gaps.`,
          "The next one goes on from the last.",
          {},
          "conflict",
        );
      await tx.counter.update({ where: { name: kind }, data: { next } });
      await audit(tx, shop, "chose first number", kind, null, { first: next });
      return next;
    }),
  );
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
