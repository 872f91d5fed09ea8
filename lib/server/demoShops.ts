import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
} from "node:fs";
import { join } from "node:path";
import { configuration, reconfigure } from "@/lib/configuration/configuration";
import { withoutFlushing } from "@/lib/db/clients";
import { closeDirectory, directory } from "@/lib/db/directory";
import { dataFolder, postgresUrl, projectRoot } from "@/lib/db/folders";
import { migrateAll } from "@/lib/db/migrate";
import { inPostgres } from "@/lib/db/postgres";
import { demandAddress } from "@/lib/db/servers";
import { closeShop, closeShops } from "@/lib/db/shop";
import { dropSchema } from "@/lib/db/shopSchema";
import { withDeadline } from "@/lib/workers/pool";

/** The production build takes most of the processors meanwhile. */
const DEADLINE_MS = 120_000;

/** True on the first run: nobody has signed up and the demo is there to be built; or its building was cut off. */
export async function wantsDemo(): Promise<boolean> {
  if (!existsSync(join(projectRoot, "demo"))) return false;
  if (postgresUrl() && (await isUnfinished())) return true;
  const read = directory().read;
  const shop = await read.shop.findFirst({ select: { id: true }, orderBy: { id: "asc" } });
  const person = await read.person.findFirst({ select: { id: true }, orderBy: { id: "asc" } });
  return !shop && !person;
}

/**
 * Builds the demo shops. On SQLite they are made in a folder beside the data and moved in when whole, the
 * directory last, so that a full disk or a stop half-way leaves no half demo behind. On PostgreSQL it is marked as begun,
 * and what a stop left of it, the shops of `people`, goes before it is built anew.
 */
export async function makeDemo(
  build: (now: Date) => Promise<void>,
  now: Date,
  people: readonly string[],
): Promise<void> {
  const patient = (at: Date) => withDeadline(DEADLINE_MS, () => build(at));
  const url = postgresUrl();
  if (url) return inSchemas(url, patient, now, people);
  const target = dataFolder();
  const making = join(target, "demo-in-the-making");
  rmSync(making, { recursive: true, force: true });
  mkdirSync(making, { recursive: true });
  await closeDirectory();
  const { DATA_DIR } = configuration();
  reconfigure({ DATA_DIR: making });
  try {
    await withoutFlushing(async () => {
      await migrateAll();
      await patient(now);
      await closeShops();
      await closeDirectory();
    });
    flush(making);
    moveIn(making, target);
  } finally {
    await closeShops();
    await closeDirectory();
    reconfigure({ DATA_DIR });
    rmSync(making, { recursive: true, force: true });
  }
}

/** Puts all that was written to the disk: from the move on it counts. */
function flush(folder: string): void {
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const file = openSync(join(entry.parentPath, entry.name), "r+");
    fsyncSync(file);
    closeSync(file);
  }
}

function moveIn(making: string, target: string): void {
  mkdirSync(join(target, "shops"), { recursive: true });
  for (const name of readdirSync(join(making, "shops")))
    renameSync(join(making, "shops", name), join(target, "shops", name));
  const others = readdirSync(making).filter(
    (name) => name !== "shops" && !name.startsWith("directory.sqlite") && !name.endsWith(".lock"),
  );
  for (const name of others) renameSync(join(making, name), join(target, name));
  for (const old of ["directory.sqlite-wal", "directory.sqlite-shm"])
    rmSync(join(target, old), { force: true });
  renameSync(join(making, "directory.sqlite"), join(target, "directory.sqlite"));
}

const BEGUN = "demo begun";
const BUILT = "demo built";

async function isUnfinished(): Promise<boolean> {
  const last = await directory().read.securityEvent.findFirst({
    where: { act: { in: [BEGUN, BUILT] } },
    select: { act: true },
    orderBy: { id: "desc" },
  });
  return last?.act === BEGUN;
}

/** One process builds while others wait; the lock ends with the session of one that is killed, and the next begins anew. */
async function inSchemas(
  url: string,
  build: (now: Date) => Promise<void>,
  now: Date,
  people: readonly string[],
): Promise<void> {
  const event = (act: string) =>
    directory().write((tx) => tx.securityEvent.create({ data: { at: now, act }, select: { id: true } }));
  await inPostgres(url, async (client) => {
    await client.query("SELECT pg_advisory_lock(hashtext('throttlewright demo'))");
    if (!(await wantsDemo())) return;
    if (await isUnfinished()) await takeAway(people);
    await event(BEGUN);
    await build(now);
    await event(BUILT);
  });
}

async function takeAway(people: readonly string[]): Promise<void> {
  const theirs = { memberships: { some: { person: { email: { in: [...people] } } } } };
  const shops = await directory().read.shop.findMany({
    where: theirs,
    select: { id: true, database: true, server: true },
    orderBy: { id: "asc" },
  });
  for (const { database, server } of shops) {
    if (!/^[a-z0-9_]+$/.test(database)) throw new Error("Not a database name.");
    await closeShop(database);
    await dropSchema(demandAddress(server).direct, database);
  }
  await directory().write(async (tx) => {
    await tx.shop.deleteMany({ where: { id: { in: shops.map((shop) => shop.id) } } });
    await tx.person.deleteMany({ where: { email: { in: [...people] } } });
  });
}
