import { rmSync } from "node:fs";
import { join } from "node:path";
import type { ShopPlace } from "@/lib/db/servers";
import { shopFile } from "@/lib/db/shop";
import { asOneFile, copyDatabase, digestOf, readCopy, sizeOf } from "./copyDatabase";
import { withPhotos } from "./copyPhotos";

export interface Copied {
  readonly slug: string;
  readonly database: string;
  /** On PostgreSQL: the server that its schema was on, as the directory names it. */
  readonly server?: string;
  /** False where there is no copy of it in this backup. */
  readonly there: boolean;
  readonly bytes: number;
  /** SHA-256 of the copied database. */
  readonly digest?: string;
  /** Of a schema on PostgreSQL: how many rows each of its tables had. */
  readonly rows?: Readonly<Record<string, number>>;
  readonly problems: readonly string[];
}

/** The file of a shop's database, relative to a copy. */
export const shopCopy = (database: string) => join("shops", `${database}.sqlite`);

/**
 * Copies one shop's database and the photos that the copied rows name, then opens the copy and checks its books and photos
 * with it. Files are written before their rows: none is late. What fails is told in the answer.
 */
export async function copyShop(shop: ShopPlace, folder: string, before: string | null): Promise<Copied> {
  const { slug, database } = shop;
  const file = join(folder, shopCopy(database));
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
      const photos = await withPhotos(copy, database, before ? join(before, "files", database) : null);
      return { slug, database, there: true, bytes: sizeOf(file) + photos.bytes, problems: photos.problems };
    });
  } catch (cause) {
    const problems = [`It could not be checked: ${words(cause)}`];
    copied = { slug, database, there: true, bytes: sizeOf(file), problems };
  }
  asOneFile(file);
  return { ...copied, digest: digestOf(file) };
}

export const words = (cause: unknown) =>
  (cause instanceof Error ? cause.message : String(cause)).trim().slice(0, 300);
