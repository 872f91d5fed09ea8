import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopReader, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import {
  DESCRIBED_NAMES,
  type DescribedPart,
  figuresOf,
  partWords,
} from "@/lib/domain/tuning/describedParts";
import type { HowKnown } from "@/lib/domain/tuning/settings";
import { DescribedPartSchema, type DescribePartInput } from "@/lib/schemas/describedParts";
import { howKnown } from "./delivered";
import { saveSheetIn } from "./sheets";

export type PartState = "found" | "target" | "left";

export interface KeptPart {
  readonly id: number;
  readonly carburettor: number;
  readonly state: PartState;
  readonly how: HowKnown;
  readonly jobId: number | null;
  readonly part: DescribedPart;
  readonly words: string;
  readonly takenAt: Date;
}

const KINDS = Object.keys(DESCRIBED_NAMES);

export type PartReads = Pick<ShopReader, "fittedPart"> | Pick<ShopTx, "fittedPart">;

/** What was written of a bike's parts beside its needle, newest first. */
export async function describedParts(
  reads: PartReads,
  bikeId: number,
  where: Prisma.FittedPartWhereInput = {},
): Promise<readonly KeptPart[]> {
  const rows = await reads.fittedPart.findMany({
    where: { AND: [{ bikeId, kind: { in: KINDS } }, where] },
    select: {
      id: true,
      carburettor: true,
      state: true,
      facts: true,
      how: true,
      jobId: true,
      takenAt: true,
    },
    orderBy: { id: "desc" },
    take: 100,
  });
  return rows.map(({ facts, how, state, ...row }) => {
    const part = DescribedPartSchema.parse(facts);
    return { ...row, state: state as PartState, how: howKnown(how), part, words: partWords(part) };
  });
}

/** The described parts in each carburettor, one of a kind: the newest that is no target. */
export async function fittedParts(
  reads: PartReads,
  bikeId: number,
): Promise<ReadonlyMap<number, readonly DescribedPart[]>> {
  const newest = new Map<string, KeptPart>();
  for (const one of await describedParts(reads, bikeId, { state: { not: "target" } })) {
    const place = `${one.carburettor} ${one.part.kind}`;
    if (!newest.has(place)) newest.set(place, one);
  }
  const grouped = Map.groupBy(newest.values(), (one) => one.carburettor);
  return new Map([...grouped].map(([carburettor, own]) => [carburettor, own.map((one) => one.part)]));
}

export interface NewPart {
  readonly bikeId: number;
  readonly carburettor: number;
  readonly state: PartState;
  readonly part: DescribedPart;
  readonly how: HowKnown;
  readonly jobId?: number | null;
  readonly sheetId?: number | null;
}

/** Writes a part down inside a transaction of the caller's; earlier descriptions stay. */
export async function keepPartIn(tx: ShopTx, shop: ShopHandle, { part, ...kept }: NewPart): Promise<number> {
  const { id } = await tx.fittedPart.create({
    data: {
      ...kept,
      kind: part.kind,
      facts: DescribedPartSchema.parse(part),
      takenAt: shop.now,
      staffId: shop.by.staffId,
    },
    select: { id: true },
  });
  await audit(tx, shop, "described a part", "bike", kept.bikeId, {
    fittedPartId: id,
    kind: part.kind,
    state: kept.state,
    carburettor: kept.carburettor,
  });
  return id;
}

/** Writes down a part as it was found, once per key, with a sheet of the figures that follow from it; earlier words stay. */
export async function describePart(
  shop: ShopHandle,
  input: DescribePartInput & { readonly key?: string | undefined },
): Promise<number> {
  const { bikeId, carburettor, part } = input;
  return shop.write((tx) =>
    once(tx, shop, "described a part", input, async () => {
      const place = await tx.carburettor.findFirst({
        where: { bikeId, position: carburettor },
        select: { id: true },
        orderBy: { id: "asc" },
      });
      if (!place)
        throw new Refusal("The bike has no such carburettor.", "Choose a bike from the list.", {}, "missing");
      const values = figuresOf(part).map((figure) => ({ ...figure, carburettor, how: "measured" }));
      const sheetId =
        values.length === 0
          ? null
          : await saveSheetIn(tx, shop, {
              bikeId,
              kind: "asFound",
              values,
              note: `${DESCRIBED_NAMES[part.kind]}: ${partWords(part)}.`,
            });
      return keepPartIn(tx, shop, { bikeId, carburettor, state: "found", part, how: "measured", sheetId });
    }),
  );
}
