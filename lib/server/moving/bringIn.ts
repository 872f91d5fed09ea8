import { filesFolder } from "@/lib/db/folders";
import type { ShopPlace } from "@/lib/db/servers";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { photoStore } from "@/lib/outside/photoStore";
import { photoName } from "./archive";
import { problemsIn } from "./checked";
import { fillDatabase } from "./fill";
import type { OpenArchive } from "./zipIn";

const NOTHING = "Nothing was opened.";

export interface Brought {
  readonly shop: ShopHandle;
  readonly rows: number;
  readonly pictures: number;
}

/**
 * Fills a database that is not there yet, and its folder of pictures, from an archive; every file is held to its digest, every table to
 * what it was, and the books are checked. Nobody can enter it before its shop stands in the directory.
 */
export async function bringIn(archive: OpenArchive, place: ShopPlace, now: Date): Promise<Brought> {
  const { manifest } = archive;
  const { database } = place;
  const rows = await fillDatabase(archive, place);
  const store = photoStore({ database, files: filesFolder(database) });
  let pictures = 0;
  for (const { name } of manifest.files) {
    if (!name.startsWith("photos/")) continue;
    await store.put(name.slice(photoName("").length), await wholeOf(archive.read(name), name));
    pictures += 1;
  }
  // What is not read into the shop is held to its digest all the same.
  for (const { name } of manifest.files)
    if (/^(csv\/|README|shop\.sqlite)/.test(name)) for await (const _ of archive.read(name));
  const shop = handleFor(place, SYSTEM, now);
  const problems = await problemsIn(shop, store, manifest.missingPhotos.length > 0);
  if (problems.length)
    throw new Refusal(`The books of this shop do not add up: ${problems.slice(0, 5).join(" ")}`, NOTHING);
  return { shop, rows, pictures };
}

/** A picture of ours has at most a few megabytes. */
const MOST_PICTURE = 64 * 1024 * 1024;

async function wholeOf(pieces: AsyncIterable<Buffer>, name: string): Promise<Buffer> {
  const all: Buffer[] = [];
  let bytes = 0;
  for await (const piece of pieces) {
    bytes += piece.length;
    if (bytes > MOST_PICTURE) throw new Refusal(`${name} is too large to be a picture of ours.`, NOTHING);
    all.push(piece);
  }
  return Buffer.concat(all);
}
