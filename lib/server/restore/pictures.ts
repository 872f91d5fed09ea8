import { existsSync } from "node:fs";
import { cp } from "node:fs/promises";
import { join } from "node:path";
import { filesFolder } from "@/lib/db/folders";
import { type FileStore, folderStore } from "@/lib/outside/fileStore";
import { photoBucket, photoStore } from "@/lib/outside/photoStore";

/** Where a shop that is here keeps its pictures. */
export const storeOf = (database: string): FileStore =>
  photoStore({ database, files: filesFolder(database) });

/**
 * Puts a copy's pictures beside those that are here. Their names are given once: what is here stays, also where the restore is then
 * broken off.
 */
export async function givePictures(copy: string, database: string): Promise<void> {
  const files = join(copy, "files", database);
  if (!photoBucket()) {
    if (existsSync(files)) await cp(files, filesFolder(database), { recursive: true, force: true });
    return;
  }
  const from = folderStore(files);
  const to = storeOf(database);
  for (const { name } of await from.list()) {
    const picture = await from.get(name);
    if (picture) await to.put(name, picture);
  }
}
