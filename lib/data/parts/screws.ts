import { z } from "zod";
import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { type Screw, type ScrewFit, screwsFor } from "@/lib/domain/stock/screws";
import { ScrewFactSchema } from "@/lib/schemas/screws";

const Facts = z.object({ screw: ScrewFactSchema });

const storedScrew = (facts: unknown): Screw | null => {
  const read = Facts.safeParse(facts);
  return read.success ? read.data.screw : null;
};

/** A screw of stock as it was measured; null where nobody did. */
export async function screwOfPart(shop: ShopHandle, partId: number): Promise<Screw | null> {
  const row = await shop.read.part.findUnique({ where: { id: partId }, select: { facts: true } });
  return storedScrew(row?.facts);
}

/** Keeps what a screw of stock is. Refuses a part that is none. */
export async function measureScrew(shop: ShopHandle, input: { partId: number; screw: Screw }): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.part.updateMany({
        where: { id: input.partId, kind: "screw" },
        data: { facts: { screw: { ...input.screw } }, version: { increment: 1 } },
      }),
      () => new Refusal("This part is no screw.", "Open a part of the kind screw.", {}, "missing"),
    );
    await audit(tx, shop, "measured a screw", "part", input.partId);
  });
}

export interface ScrewFound extends ScrewFit {
  readonly id: number;
  readonly code: string;
  readonly name: string;
  readonly screw: Screw;
  readonly freeMilli: number;
}

/** Screws of stock that can stand in for a worn one, the nearest first; those that nobody measured are not found. */
export async function findScrews(shop: ShopHandle, worn: Screw): Promise<readonly ScrewFound[]> {
  const rows = await shop.read.part.findMany({
    where: { kind: "screw", active: true },
    select: { id: true, code: true, name: true, facts: true, onHandMilli: true, reservedMilli: true },
    orderBy: { code: "asc" },
    take: 500,
  });
  const known = rows.flatMap(({ facts, onHandMilli, reservedMilli, ...row }) => {
    const screw = storedScrew(facts);
    return screw ? [{ ...row, screw, freeMilli: onHandMilli - reservedMilli }] : [];
  });
  return screwsFor(worn, known).slice(0, 30);
}
