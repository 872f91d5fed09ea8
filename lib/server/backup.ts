import { mkdirSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { readSettingsFile } from "@/lib/configuration/configuration";
import { problemsOf } from "@/lib/data/books/invariants";
import { photoFileNames } from "@/lib/data/photos/check";
import { sqliteClient } from "@/lib/db/clients";
import { closeDirectory, directory, directoryFile } from "@/lib/db/directory";
import { dataFolder, filesFolder, postgresUrl, projectRoot } from "@/lib/db/places";
import { closeShops, type ShopHandle, shopFile } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { SYSTEM } from "@/lib/gate/handle";
import { complain, say } from "@/lib/log/say";
import { folderStore } from "@/lib/outside/fileStore";

/** Copies the directory and every shop into a new folder while the server runs, then opens each copy and checks it. */
async function backup(): Promise<void> {
  if (postgresUrl())
    throw new Refusal(
      "This command copies SQLite files.",
      "On PostgreSQL use pg_dump, one schema per shop (pg_dump --schema=shop_…), and copy the folder `files` of the data folder after it.",
    );
  const stamp = new Date().toISOString().replace(/[:.]/g, "-");
  const folder = process.argv[2] ?? join(dataFolder(), "backups", stamp);
  mkdirSync(join(folder, "shops"), { recursive: true });
  copyInto(directoryFile(), join(folder, "directory.sqlite"));
  const shops = await directory().read.shop.findMany({
    select: { slug: true, database: true },
    orderBy: { id: "asc" },
  });
  let bad = 0;
  for (const shop of shops) {
    const copy = join(folder, "shops", `${shop.database}.sqlite`);
    copyInto(shopFile(shop.database), copy);
    const files = join(folder, "files", shop.database);
    const problems = await problemsOfCopy(shop, copy, files);
    bad += problems.length;
    say(`${shop.slug}: ${problems.length === 0 ? "copied, opened and checked" : problems.join(" ")}`);
  }
  say(
    `Backup of ${shops.length} shops in ${folder}. To restore: stop the server and put these files into the data folder.`,
  );
  if (bad) process.exitCode = 1;
}

function copyInto(from: string, to: string): void {
  const raw = new Database(from, { readonly: true });
  raw.prepare("VACUUM INTO ?").run(to);
  raw.close();
  const copy = new Database(to);
  const found = copy.pragma("integrity_check", { simple: true });
  copy.pragma("journal_mode = WAL");
  copy.close();
  if (found !== "ok")
    throw new Refusal(`The copy of ${from} is damaged: ${String(found)}.`, "Keep the last good backup.");
}

/** Brings the photos that the copied rows name, then checks the copy with them. Files are written before their rows: none is late. */
async function problemsOfCopy(
  shop: { slug: string; database: string },
  file: string,
  files: string,
): Promise<string[]> {
  const read = sqliteClient("shop", file, true);
  try {
    const refuse = () => Promise.reject(new Error("A backup copy is only read."));
    const { slug } = shop;
    const copy: ShopHandle = {
      slug,
      database: slug,
      files,
      read,
      write: refuse,
      by: SYSTEM,
      now: new Date(),
    };
    await copyPhotos(copy, filesFolder(shop.database));
    return await problemsOf(copy, folderStore(files));
  } finally {
    await read.$disconnect();
  }
}

async function copyPhotos(copy: ShopHandle, from: string): Promise<void> {
  const source = folderStore(from);
  const target = folderStore(copy.files);
  for (const name of await photoFileNames(copy)) {
    const bytes = await source.get(name);
    // A missing one is told by the check that follows.
    if (bytes) await target.put(name, bytes);
  }
}

try {
  readSettingsFile(projectRoot);
  await backup();
} catch (cause) {
  if (!(cause instanceof Refusal)) throw cause;
  complain(`${cause.message} ${cause.remedy}`);
  process.exitCode = 1;
} finally {
  await closeShops();
  await closeDirectory();
}
