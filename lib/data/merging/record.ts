import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { MergedNoun } from "../common/merged";
import type { MergePreview, Pair } from "./types";

/** Refuses what cannot be merged, and a pair that was changed since it was looked at. */
export function demandMergeable(preview: MergePreview, pair: Pair): void {
  const { kept, gone } = preview;
  if (preview.against)
    throw new Refusal(
      `${gone.name} cannot be merged into ${kept.name}: ${preview.against}`,
      "Put that right first, or leave both as they are. Nothing was changed.",
    );
  for (const [side, version] of [
    [kept, pair.keptVersion],
    [gone, pair.goneVersion],
  ] as const)
    if (side.version !== version) throw changedSince(side.name);
}

export const changedSince = (name: string) =>
  new Refusal(
    `${name} was changed since you looked. Nothing was merged.`,
    "Look at both once more, then merge them.",
    {},
    "conflict",
  );

/** Notes which record leads where from now on, and what led to the gone one leads on. First of all: the guards look it up. */
export async function noteMergeIn(
  tx: ShopTx,
  shop: ShopHandle,
  noun: MergedNoun,
  { kept, gone }: MergePreview,
  key: string | null,
): Promise<void> {
  await tx.merged.updateMany({ where: { noun, keptId: gone.id }, data: { keptId: kept.id } });
  await tx.merged.create({
    data: {
      noun,
      goneId: gone.id,
      keptId: kept.id,
      name: gone.name,
      personName: shop.by.name,
      at: shop.now,
    },
    select: { goneId: true },
  });
  await tx.knownKey.updateMany({ where: { noun, nounId: gone.id }, data: { nounId: kept.id } });
  if (key !== null)
    await tx.knownKey.upsert({
      where: { noun_key: { noun, key } },
      create: { noun, key, nounId: kept.id },
      update: { nounId: kept.id },
      select: { key: true },
    });
}

export async function auditMerge(
  tx: ShopTx,
  shop: ShopHandle,
  noun: MergedNoun,
  { kept, gone, moves, filled, left }: MergePreview,
): Promise<void> {
  const said = (all: MergePreview["left"]) => Object.fromEntries(all.map(({ name, value }) => [name, value]));
  await audit(tx, shop, "merged", noun, kept.id, {
    gone: { id: gone.id, name: gone.name, about: gone.about },
    moves: [...moves],
    filled: said(filled),
    left: said(left),
  });
}
