import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import {
  DESCRIBED_NAMES,
  type DescribedPart,
  figuresOf,
  partWords,
} from "@/lib/domain/tuning/describedParts";
import { DescribedPartSchema, type DescribePartInput } from "@/lib/schemas/describedParts";
import { saveSheetIn } from "./sheets";

export interface KeptPart {
  readonly id: number;
  readonly carburettor: number;
  readonly part: DescribedPart;
  readonly words: string;
  readonly takenAt: Date;
}

const KINDS = Object.keys(DESCRIBED_NAMES);

/** What was written of a bike's parts beside its needle, newest first. */
export async function describedParts(shop: ShopHandle, bikeId: number): Promise<readonly KeptPart[]> {
  const rows = await shop.read.fittedPart.findMany({
    where: { bikeId, kind: { in: KINDS } },
    select: { id: true, carburettor: true, facts: true, takenAt: true },
    orderBy: { id: "desc" },
    take: 100,
  });
  return rows.map(({ facts, ...row }) => {
    const part = DescribedPartSchema.parse(facts);
    return { ...row, part, words: partWords(part) };
  });
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
      const { id } = await tx.fittedPart.create({
        data: {
          bikeId,
          carburettor,
          kind: part.kind,
          state: "found",
          facts: DescribedPartSchema.parse(part),
          how: "measured",
          sheetId,
          takenAt: shop.now,
          staffId: shop.by.staffId,
        },
        select: { id: true },
      });
      await audit(tx, shop, "described a part", "bike", bikeId, {
        fittedPartId: id,
        kind: part.kind,
        carburettor,
      });
      return id;
    }),
  );
}
