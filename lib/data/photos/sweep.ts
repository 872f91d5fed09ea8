import { earliest } from "@/lib/db/due";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { PHOTO, photoFiles } from "@/lib/domain/photos/limits";

/** The part of a file store that sweeping needs. */
export interface FileBroom {
  list(): Promise<readonly { readonly name: string; readonly writtenAt: Date }[]>;
  remove(name: string): Promise<void>;
}

const DAY = 86_400_000;
const AT_ONCE = 200;

/**
 * Erases photos that were taken off long ago, and files that no photo names: a stop between writing a file and its row
 * leaves one. Files younger than a day are let be, since their rows may be on the way.
 */
export async function sweepPhotos(
  shop: ShopHandle,
  files: FileBroom,
): Promise<{ photos: number; files: number }> {
  const photos = await eraseOld(shop);
  const old = (await files.list()).filter((file) => file.writtenAt.getTime() < shop.now.getTime() - DAY);
  let swept = 0;
  for (let at = 0; at < old.length; at += AT_ONCE) {
    const some = old.slice(at, at + AT_ONCE);
    const rows = await shop.read.photo.findMany({
      where: { file: { in: [...new Set(some.map(({ name }) => name.replace(/(-small)?\.jpg$/, "")))] } },
      select: { file: true },
      orderBy: { id: "asc" },
    });
    const named = new Set(rows.flatMap(({ file }) => Object.values(photoFiles(file))));
    for (const { name } of some.filter((file) => !named.has(file.name))) {
      await files.remove(name);
      swept++;
    }
  }
  return { photos, files: swept };
}

/** When a photo that was taken off is erased, or a file without a row may be swept; null where there are none. */
export async function nextPhotoSweep(shop: ShopHandle, files: FileBroom): Promise<Date | null> {
  const oldest = await shop.read.photo.findFirst({
    where: { removedAt: { not: null } },
    select: { removedAt: true },
    orderBy: { removedAt: "asc" },
  });
  const young = (await files.list()).filter((file) => file.writtenAt.getTime() >= shop.now.getTime() - DAY);
  return earliest([
    oldest?.removedAt ? new Date(oldest.removedAt.getTime() + PHOTO.keptDays * DAY) : null,
    // Its row may be on the way: that is seen once it is a day old.
    ...(young.length ? [new Date(shop.now.getTime() + DAY)] : []),
  ]);
}

/** The rows go first: a row without its files would be a fault, a file without its row is only swept. */
async function eraseOld(shop: ShopHandle): Promise<number> {
  const before = new Date(shop.now.getTime() - PHOTO.keptDays * DAY);
  return shop.write(async (tx) => {
    const rows = await tx.photo.findMany({
      where: { removedAt: { lt: before } },
      select: { id: true, noun: true, nounId: true },
      orderBy: { id: "asc" },
      take: AT_ONCE,
    });
    if (rows.length === 0) return 0;
    await tx.photo.deleteMany({ where: { id: { in: rows.map(({ id }) => id) }, removedAt: { lt: before } } });
    for (const { id, noun, nounId } of rows) await audit(tx, shop, "erased", "photo", id, { noun, nounId });
    return rows.length;
  });
}
