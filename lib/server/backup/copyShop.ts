import { linkSync, mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { problemsOf } from "@/lib/data/books/invariants";
import { photoFileNames } from "@/lib/data/photos/check";
import { filesFolder } from "@/lib/db/folders";
import { type ShopHandle, shopFile } from "@/lib/db/shop";
import { type FileStore, folderStore } from "@/lib/outside/fileStore";
import { photoStore } from "@/lib/outside/photoStore";
import { asOneFile, copyDatabase, digestOf, readCopy, sizeOf } from "./copyDatabase";

export interface Copied {
  readonly slug: string;
  readonly database: string;
  /** False where there is no copy of it in this backup. */
  readonly there: boolean;
  readonly bytes: number;
  /** SHA-256 of the copied database. */
  readonly digest?: string;
  readonly problems: readonly string[];
}

/**
 * Copies one shop's database and the photos that the copied rows name, then opens the copy and checks its books and photos
 * with it. Files are written before their rows: none is late. What fails is told in the answer.
 */
export async function copyShop(
  shop: { slug: string; database: string },
  folder: string,
  before: string | null,
): Promise<Copied> {
  const { slug, database } = shop;
  const file = join(folder, "shops", `${database}.sqlite`);
  const files = join(folder, "files", database);
  try {
    copyDatabase(shopFile(database), file);
  } catch (cause) {
    rmSync(file, { force: true });
    return { slug, database, there: false, bytes: 0, problems: [`It could not be copied: ${words(cause)}`] };
  }
  let copied: Copied;
  try {
    copied = await readCopy(file, slug, files, async (copy) => {
      const source = photoStore({ database, files: filesFolder(database) });
      const earlier = before ? join(before, "files", database) : null;
      const photos = await copyPhotos(copy, source, earlier);
      let problems = await problemsOf(copy, folderStore(files));
      if (problems.length && earlier) {
        // A picture that was taken over from the earlier backup may be what is wrong.
        rmSync(files, { recursive: true, force: true });
        await copyPhotos(copy, source, null);
        problems = await problemsOf(copy, folderStore(files));
      }
      return { slug, database, there: true, bytes: sizeOf(file) + photos, problems };
    });
  } catch (cause) {
    const problems = [`It could not be checked: ${words(cause)}`];
    copied = { slug, database, there: true, bytes: sizeOf(file), problems };
  }
  asOneFile(file);
  return { ...copied, digest: digestOf(file) };
}

/** A photo's name is given once and never written again: what the earlier backup holds is shared with it, not copied. */
async function copyPhotos(copy: ShopHandle, source: FileStore, earlier: string | null): Promise<number> {
  const target = folderStore(copy.files);
  let bytes = 0;
  const names = await photoFileNames(copy);
  if (names.length) mkdirSync(copy.files, { recursive: true });
  const there = new Map(earlier ? (await source.list()).map(({ name, bytes }) => [name, bytes]) : []);
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
    const found = await source.get(name);
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

const words = (cause: unknown) =>
  (cause instanceof Error ? cause.message : String(cause)).trim().slice(0, 300);
