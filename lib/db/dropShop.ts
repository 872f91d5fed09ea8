import { rmSync } from "node:fs";
import { photoStore } from "@/lib/outside/photoStore";
import { filesFolder } from "./folders";
import { type DatabasePlace, demandAddress, directUrl, serverNames } from "./servers";
import { closeShop, shopFile } from "./shop";
import { dropSchema } from "./shopSchema";

/**
 * Erases a shop's database and its files for good, and what a move between servers left of it on another one. Only for what never was
 * a shop, a making that was cut off, for sample shops and for shops that an owner had erased.
 */
export async function dropShopDatabase({ database, server }: DatabasePlace): Promise<void> {
  if (!/^shop_[a-f0-9]{16}$/.test(database)) throw new Error("Not the name of a shop's database.");
  await closeShop(database);
  const url = directUrl(server);
  if (url) await dropSchema(url, database);
  else for (const end of ["", "-wal", "-shm"]) rmSync(`${shopFile(database)}${end}`, { force: true });
  const files = filesFolder(database);
  await photoStore({ database, files }).clear();
  // What lay there before the photos moved to a bucket.
  rmSync(files, { recursive: true, force: true });
  for (const other of serverNames())
    if (other !== server) await dropSchema(demandAddress(other).direct, database);
}
