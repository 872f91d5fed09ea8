import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { configuration, reconfigure } from "@/lib/configuration/configuration";
import { closeDirectory, directory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import { dataFolder, postgresUrl, projectRoot } from "@/lib/db/places";
import { closeShops } from "@/lib/db/shop";

/** True on the first run: nobody has signed up and the demo is there to be built. */
export async function wantsDemo(): Promise<boolean> {
  if (!existsSync(join(projectRoot, "demo"))) return false;
  const read = directory().read;
  const shop = await read.shop.findFirst({ select: { id: true }, orderBy: { id: "asc" } });
  const person = await read.person.findFirst({ select: { id: true }, orderBy: { id: "asc" } });
  return !shop && !person;
}

/**
 * Builds the demo shops. On SQLite they are made in a folder beside the data and moved in when whole, the
 * directory last, so that a full disk or a stop half-way leaves no half demo behind.
 */
export async function makeDemo(build: (now: Date) => Promise<void>, now: Date): Promise<void> {
  if (postgresUrl()) return build(now);
  const target = dataFolder();
  const making = join(target, "demo-in-the-making");
  rmSync(making, { recursive: true, force: true });
  mkdirSync(making, { recursive: true });
  await closeDirectory();
  const { DATA_DIR } = configuration();
  reconfigure({ DATA_DIR: making });
  try {
    await migrateAll();
    await build(now);
    await closeShops();
    await closeDirectory();
    moveIn(making, target);
  } finally {
    await closeShops();
    await closeDirectory();
    reconfigure({ DATA_DIR });
    rmSync(making, { recursive: true, force: true });
  }
}

function moveIn(making: string, target: string): void {
  mkdirSync(join(target, "shops"), { recursive: true });
  for (const name of readdirSync(join(making, "shops")))
    renameSync(join(making, "shops", name), join(target, "shops", name));
  const others = readdirSync(making).filter(
    (name) => name !== "shops" && !name.startsWith("directory.sqlite"),
  );
  for (const name of others) renameSync(join(making, name), join(target, name));
  for (const old of ["directory.sqlite-wal", "directory.sqlite-shm"])
    rmSync(join(target, old), { force: true });
  renameSync(join(making, "directory.sqlite"), join(target, "directory.sqlite"));
}
