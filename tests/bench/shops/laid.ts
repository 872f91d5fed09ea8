import { copyFileSync } from "node:fs";
import Database from "better-sqlite3";
import { configuration, reconfigure } from "@/lib/configuration/configuration";
import { listJobs } from "@/lib/data/jobs/list";
import { listQuotes } from "@/lib/data/quotes/list";
import { prepareShop } from "@/lib/data/shop/prepare";
import { getToday } from "@/lib/data/today/today";
import { postgresUrl } from "@/lib/db/folders";
import { createShopDatabase } from "@/lib/db/migrate";
import { audit } from "@/lib/db/record";
import { postgresTarget } from "@/lib/db/rows/postgresRows";
import { sqliteSource } from "@/lib/db/rows/sqliteRows";
import { closeShops, shopFile } from "@/lib/db/shop";
import { createSchema } from "@/lib/db/shopSchema";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { seed } from "../seed";

const NOW = new Date("2026-11-25T00:30:00Z");
const nameOf = (n: number) => `many_${n}`;
const handleOf = (n: number) => handleFor({ slug: nameOf(n), database: nameOf(n), server: "" }, SYSTEM, NOW);

/** Lays `count` equal shops of two hundred customers, bikes, quotes and jobs each: files, or schemas on a PostgreSQL server. */
export async function layShops(count: number): Promise<void> {
  const { DATABASE_URL, DIRECT_DATABASE_URL } = configuration();
  reconfigure({ DATABASE_URL: undefined, DIRECT_DATABASE_URL: undefined });
  await createShopDatabase({ database: nameOf(0), server: "" });
  await prepareShop(handleOf(0), { name: "Bench shop", country: "AU" });
  await closeShops();
  seed(nameOf(0), 200);
  const whole = new Database(shopFile(nameOf(0)));
  whole.pragma("wal_checkpoint(TRUNCATE)");
  whole.close();
  reconfigure({ DATABASE_URL, DIRECT_DATABASE_URL });
  const url = postgresUrl();
  if (url) for (let n = 0; n < count; n++) await laySchema(url, nameOf(n), shopFile(nameOf(0)));
  else for (let n = 1; n < count; n++) copyFileSync(shopFile(nameOf(0)), shopFile(nameOf(n)));
}

async function laySchema(url: string, schema: string, file: string): Promise<void> {
  await createSchema(url, schema);
  const source = sqliteSource(file);
  const target = await postgresTarget(url, schema);
  try {
    for (const table of await target.tables())
      for await (const rows of source.rows(table)) await target.put(table, rows);
    await target.finish(await source.lastIds());
  } finally {
    await target.close();
    await source.close();
  }
}

/** Opens a shop that is closed, to its first answer. */
export async function firstAnswer(n: number): Promise<void> {
  await handleOf(n).read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
}

/** What a few pages ask of a shop, and one write. */
export async function visit(n: number): Promise<void> {
  const shop = handleOf(n);
  await Promise.all([
    getToday(shop, { quotes: true, invoices: true, stock: true, closing: true }),
    listQuotes(shop, {}),
    listJobs(shop),
  ]);
  await shop.write((tx) => audit(tx, shop, "visited", "shop", null));
}
