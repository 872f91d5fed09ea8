import { linkSync, mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { problemsOf } from "@/lib/data/books/invariants";
import { photoFileNames } from "@/lib/data/photos/check";
import { filesFolder } from "@/lib/db/folders";
import type { ShopHandle } from "@/lib/db/shop";
import { type FileStore, folderStore } from "@/lib/outside/fileStore";
import { photoStore } from "@/lib/outside/photoStore";
import { sizeOf } from "./copyDatabase";

/**
 * Copies the photos that the rows of a copy name into its folder, then checks its books and photos with it. `earlier` is the
 * folder of an earlier backup of the same shop's photos; `database` names the shop's own, which a copy's handle need not.
 */
export async function withPhotos(
  copy: ShopHandle,
  database: string,
  earlier: string | null,
): Promise<{ bytes: number; problems: string[] }> {
  const from = photoStore({ database, files: filesFolder(database) });
  const bytes = await copyPhotos(copy, from, earlier);
  const problems = await problemsOf(copy, folderStore(copy.files));
  if (problems.length === 0 || !earlier) return { bytes, problems };
  // A picture that was taken over from the earlier backup may be what is wrong.
  rmSync(copy.files, { recursive: true, force: true });
  await copyPhotos(copy, from, null);
  return { bytes, problems: await problemsOf(copy, folderStore(copy.files)) };
}

/** A photo's name is given once and never written again: what the earlier backup holds is shared with it, not copied. */
async function copyPhotos(copy: ShopHandle, from: FileStore, earlier: string | null): Promise<number> {
  const target = folderStore(copy.files);
  let bytes = 0;
  const names = await photoFileNames(copy);
  if (names.length) mkdirSync(copy.files, { recursive: true });
  const there = new Map(earlier ? (await from.list()).map(({ name, bytes }) => [name, bytes]) : []);
  for (const name of names) {
    const kept = earlier ? join(earlier, name) : null;
    if (
      kept &&
      sizeOf(kept) > 0 &&
      sizeOf(kept) === there.get(name) &&
      linked(kept, join(copy.files, name))
    ) {
      bytes += sizeOf(kept);
      continue;
    }
    const found = await from.get(name);
    // A missing one is told by the check that follows.
    if (found) await target.put(name, found);
    bytes += found?.length ?? 0;
  }
  return bytes;
}

/** False on a disk that cannot: then it is copied. */
function linked(from: string, to: string): boolean {
  try {
    linkSync(from, to);
    return true;
  } catch {
    return false;
  }
}
