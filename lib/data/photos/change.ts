import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { PhotoNoun } from "@/lib/domain/photos/limits";
import { Refusal } from "@/lib/domain/refusal";
import { demandOpen, demandRoom } from "./about";

interface PhotoVersion {
  readonly id: number;
  readonly version: number;
}

export async function captionPhoto(
  shop: ShopHandle,
  input: PhotoVersion & { caption: string },
): Promise<void> {
  await shop.write(async (tx) => {
    await changed(tx, { id: input.id, version: input.version, removedAt: null }, { caption: input.caption });
    await audit(tx, shop, "captioned", "photo", input.id, { caption: input.caption });
  });
}

/** Takes a photo off; its files stay for a while, so that it can be put back. Returns the version to put it back with. */
export async function removePhoto(shop: ShopHandle, input: PhotoVersion): Promise<number> {
  return shop.write(async (tx) => {
    await changed(tx, { id: input.id, version: input.version, removedAt: null }, { removedAt: shop.now });
    await audit(tx, shop, "removed", "photo", input.id);
    return input.version + 1;
  });
}

export async function restorePhoto(shop: ShopHandle, input: PhotoVersion): Promise<void> {
  await shop.write(async (tx) => {
    const row = await tx.photo.findUnique({ where: { id: input.id }, select: { noun: true, nounId: true } });
    if (row) await demandRoom(tx, row.noun as PhotoNoun, row.nounId);
    await changed(
      tx,
      { id: input.id, version: input.version, removedAt: { not: null } },
      { removedAt: null },
    );
    await audit(tx, shop, "put back", "photo", input.id);
  });
}

async function changed(
  tx: ShopTx,
  where: { id: number; version: number; removedAt: null | { not: null } },
  data: { caption?: string; removedAt?: Date | null },
): Promise<void> {
  const of = await tx.photo.findUnique({ where: { id: where.id }, select: { noun: true, nounId: true } });
  if (of) await demandOpen(tx, of.noun as PhotoNoun, of.nounId);
  const { count } = await tx.photo.updateMany({ where, data: { ...data, version: { increment: 1 } } });
  if (count === 1) return;
  throw new Refusal(
    "This photo was changed or removed meanwhile.",
    "Look at it again, then do it once more.",
    {},
    "conflict",
  );
}
