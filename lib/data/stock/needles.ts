import { z } from "zod";
import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { NeedleRecord } from "@/lib/domain/tuning/needleRecord";
import { NeedleRecordSchema, type PartNeedleInput, recordOf } from "@/lib/schemas/needles";

const PartFacts = z.object({ needle: NeedleRecordSchema });

/** The needle that a part's facts describe; null where they describe none. */
export function storedNeedle(facts: unknown): NeedleRecord | null {
  const read = PartFacts.safeParse(facts);
  return read.success ? read.data.needle : null;
}

/** A needle of stock as it was measured; null where nobody did, or the part is none. */
export async function needleOfPart(shop: ShopHandle, partId: number): Promise<NeedleRecord | null> {
  const row = await shop.read.part.findUnique({ where: { id: partId }, select: { facts: true } });
  return storedNeedle(row?.facts);
}

/** A needle of stock that was measured and is free, as it is called. */
export interface NeedleOnHand {
  readonly name: string;
  readonly record: NeedleRecord;
}

/** So many needles are tried on a bike at once. */
const MOST = 40;

/** Needles of stock that were measured and are free. */
export async function needlesOnHand(shop: ShopHandle): Promise<readonly NeedleOnHand[]> {
  const rows = await shop.read.part.findMany({
    where: { kind: "needle", active: true, onHandMilli: { gt: 0 } },
    select: { code: true, name: true, facts: true, onHandMilli: true, reservedMilli: true },
    orderBy: { code: "asc" },
    take: MOST,
  });
  return rows.flatMap(({ code, name, facts, onHandMilli, reservedMilli }) => {
    const record = onHandMilli - reservedMilli >= 1000 ? storedNeedle(facts) : null;
    return record ? [{ name: `${code}, ${name}`, record }] : [];
  });
}

/** Keeps the diameters of a needle in stock: the same facts as of one on a bike. Refuses a part that is no needle. */
export async function measurePartNeedle(shop: ShopHandle, input: PartNeedleInput): Promise<number> {
  return shop.write(async (tx) => {
    await demandOne(
      tx.part.updateMany({
        where: { id: input.id, kind: "needle" },
        data: { facts: { needle: NeedleRecordSchema.parse(recordOf(input)) }, version: { increment: 1 } },
      }),
      () => new Refusal("This part is no needle.", "Open a part of the kind needle.", {}, "missing"),
    );
    await audit(tx, shop, "measured a needle", "part", input.id, { stations: input.stations.length });
    return input.id;
  });
}
