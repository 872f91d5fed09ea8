import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { reconfigure } from "@/lib/configuration/configuration";

// What many shops cost where nothing is to be done in them: npm run bench:rounds [-- <count> [--backup]]. Processor time, since the wall's depends on the company.
const count = Number(process.argv[2] ?? 1_000);
const folder = mkdtempSync(join(tmpdir(), "throttlewright-shops-"));
reconfigure({ DATA_DIR: folder, LOG_LEVEL: "fatal", BACKUP_DIR: join(folder, "copies") });
mkdirSync(join(folder, "shops"), { recursive: true });

const { prepareShop } = await import("@/lib/data/shop/prepare");
const { tellChanges } = await import("@/lib/db/changes");
const { closeDirectory, directory } = await import("@/lib/db/directory");
const { checkShops, createShopDatabase, migrateAll } = await import("@/lib/db/migrate");
const { closeShops, shopFile } = await import("@/lib/db/shop");
const { handleFor, SYSTEM } = await import("@/lib/gate/handle");
const { eachShop } = await import("@/lib/server/eachShop");
const { KEYS, LETTERS, MAIL, PACKAGES, PHOTOS, QUOTES, SEARCH, STAFF } = await import("@/lib/server/work");

/** So many are opened for the figure of opening them all, which is multiplied: all would take minutes. */
const OPENED = Math.min(20, count);

async function cost<T>(run: () => Promise<T>): Promise<{ answer: T; cpuMs: number; ms: number }> {
  const [before, began] = [process.cpuUsage(), performance.now()];
  const answer = await run();
  const { user, system } = process.cpuUsage(before);
  return { answer, cpuMs: Math.round((user + system) / 1000), ms: Math.round(performance.now() - began) };
}

async function makeShops(from: number, to: number): Promise<void> {
  for (let at = from; at < to; at++) if (at > 0) copyFileSync(shopFile("shop_0"), shopFile(`shop_${at}`));
  await directory().write(async (tx) => {
    for (let at = from; at < to; at++) {
      const id = `shop_${at}`;
      await tx.shop.create({ data: { id, slug: id, name: id, database: id, createdAt: new Date() } });
    }
  });
}

async function oneRound(): Promise<number> {
  let opened = 0;
  for (const work of [MAIL, QUOTES, LETTERS, PACKAGES, PHOTOS, STAFF, KEYS, SEARCH])
    opened += (await eachShop<unknown>(work, () => new Date()))?.shops ?? 0;
  return opened;
}

async function rounds(): Promise<void> {
  const all = await cost(oneRound);
  const each = all.cpuMs / OPENED;
  console.log(
    `One round of each of 8 works, every shop opened: ${all.answer} openings for ${OPENED} shops, ${all.cpuMs} ms of CPU; for ${count} that is ${Math.round((each * count) / 1000)} s.`,
  );
  await makeShops(OPENED, count);
  const known = await directory().read.dueWork.findMany({
    where: { shopId: "shop_0" },
    orderBy: { work: "asc" },
  });
  await directory().write(async (tx) => {
    for (let at = OPENED; at < count; at++)
      await tx.dueWork.createMany({ data: known.map((row) => ({ ...row, shopId: `shop_${at}` })) });
  });
  const due = await cost(oneRound);
  console.log(
    `One round of each of 8 works by due date, ${count} shops without work: ${due.answer} openings, ${due.cpuMs} ms of CPU (${due.ms} ms).`,
  );
}

/** Before: every shop's file is looked into, as npm run migrate does it still. */
async function startCheck(): Promise<void> {
  const all = await cost(() => migrateAll());
  console.log(`Start check by opening each of ${count} files: ${all.cpuMs} ms of CPU (${all.ms} ms).`);
  await closeDirectory();
  const quick = await cost(() => checkShops());
  console.log(
    `Start check by the directory, ${count} shops: ${quick.cpuMs} ms of CPU (${quick.ms} ms), ${quick.answer} wait.`,
  );
}

/** The peak of memory is the whole process's, threads and what came before with it. */
async function backup(): Promise<void> {
  const { makeBackup } = await import("@/lib/server/backup/make");
  const made = await cost(() => makeBackup(join(folder, "copies", "one")));
  const { shops, bytes } = made.answer;
  const bad = shops.filter(({ problems }) => problems.length > 0).length;
  console.log(
    `Backup of ${shops.length} shops (${bad} bad): ${Math.round(made.ms / 1000)} s, ${Math.round(made.cpuMs / 1000)} s of CPU, ${Math.round(bytes / 1e6)} MB, at most ${Math.round(process.resourceUsage().maxRSS / 1024)} MiB of memory.`,
  );
}

try {
  await migrateAll();
  await createShopDatabase({ database: "shop_0", server: "" });
  const first = handleFor({ slug: "shop_0", database: "shop_0", server: "" }, SYSTEM, new Date());
  await prepareShop(first, { name: "Bench shop", country: "AU" });
  await closeShops();
  await makeShops(0, OPENED);
  await tellChanges();
  if (process.argv.includes("--backup")) {
    await makeShops(OPENED, count);
    await backup();
  } else {
    await rounds();
    await startCheck();
  }
} finally {
  await closeShops();
  await closeDirectory();
  rmSync(folder, { recursive: true, force: true });
}
