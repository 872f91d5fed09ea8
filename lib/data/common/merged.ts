import type { ShopReader, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";

export type MergedNoun = "customer" | "bike" | "part";

/** Where links to a record lead that was merged into another; null where it was not. */
export async function keptInstead(
  reads: Pick<ShopReader | ShopTx, "merged">,
  noun: MergedNoun,
  goneId: number,
): Promise<{ keptId: number; name: string; personName: string } | null> {
  return reads.merged.findUnique({
    where: { noun_goneId: { noun, goneId } },
    select: { keptId: true, name: true, personName: true },
  });
}

/** What an edit of a record is told that is not there: that it was merged meanwhile, or that there is none. */
export async function mergedOrMissing(tx: ShopTx, noun: MergedNoun, id: number): Promise<Refusal> {
  const merged = await keptInstead(tx, noun, id);
  return merged
    ? new Refusal(
        `${merged.personName} merged ${merged.name} with another ${noun} while you were typing. Nothing of yours was saved or lost.`,
        `Open the ${noun} anew: the link leads to the one that is kept. Make your change there.`,
        {},
        "conflict",
      )
    : new Refusal(`There is no such ${noun}.`, "Choose one from the list.", {}, "missing");
}

/** Forgets what led to a record that is removed. */
export async function forgetLinksIn(tx: ShopTx, noun: MergedNoun, keptId: number): Promise<void> {
  await tx.merged.deleteMany({ where: { noun, keptId } });
  await tx.knownKey.deleteMany({ where: { noun, nounId: keptId } });
}

/** The records that were merged into this one. */
export async function mergedInto(reads: Pick<ShopReader, "merged">, noun: MergedNoun, keptId: number) {
  return reads.merged.findMany({
    where: { noun, keptId },
    select: { goneId: true, name: true },
    orderBy: { goneId: "asc" },
    take: 50,
  });
}
