import { existsSync } from "node:fs";
import { join } from "node:path";
import { postgresClient } from "@/lib/db/clients";
import { withDatabaseAlone } from "@/lib/db/inUsePostgres";
import { inPostgres } from "@/lib/db/postgres";
import { type DatabasePlace, demandAddress, serverSaid } from "@/lib/db/servers";
import { hasTables } from "@/lib/db/shopFaults";
import { dropSchema } from "@/lib/db/shopSchema";
import { Refusal } from "@/lib/domain/refusal";
import { say } from "@/lib/log/say";
import { folderStore } from "@/lib/outside/fileStore";
import { type Manifest, manifestOf } from "../../backup/make";
import { DIRECTORY_DUMP, shopDump } from "../../backup/postgres/copySchema";
import { demandPrograms } from "../../backup/postgres/programs";
import { type Asked, demandFit } from "../asked";
import { carryErasedRows } from "../erased";
import { givePictures, storeOf } from "../pictures";
import type { ShopRow, Staged } from "../stage";
import { booksAt } from "./books";
import { coming, layReady } from "./layReady";
import { demandServers, exchangesOf, staysElsewhere } from "./servers";
import { swap } from "./swap";

const DIRECTORY: DatabasePlace = { database: "directory", server: "" };
const comingAt = ({ database, server }: DatabasePlace): DatabasePlace => ({
  database: coming(database),
  server,
});

/**
 * Puts a copy's schemas back, each on its shop's server: it is laid ready beside the one it replaces, held to its backup and its books
 * checked; then all take their places in one transaction of each server. Photos come before: their names are given once, so that those of what is replaced stay as well.
 */
export async function restoreSchemas(url: string, wanted: Asked): Promise<number> {
  demandPrograms("pg_restore", "psql");
  const manifest = demandCopy(wanted.copy);
  if (wanted.slug === null) await demandServers(manifest.shops);
  return withDatabaseAlone(url, async () => {
    const laid: DatabasePlace[] = [comingAt(DIRECTORY)];
    try {
      await layDirectory(url, wanted.copy, manifest);
      const ours = await shopsHere(url);
      const shops = await chosen(wanted, ours);
      await demandServers(shops);
      const staged: Staged[] = [];
      for (const shop of shops) {
        laid.push(comingAt(shop));
        const one = await stage(wanted.copy, manifest, shop);
        say(
          `${one.slug}: ${one.damage ?? (one.problems.length ? one.problems.join(" ") : "whole, and its books add up")}`,
        );
        staged.push(one);
      }
      demandFit(staged, wanted);
      return await putBack(url, wanted, staged, ours);
    } finally {
      for (const place of laid) await takeAway(place);
    }
  });
}

/** Why a restore failed counts, not that what it left could not be taken away: the next one does that. */
async function takeAway({ database, server }: DatabasePlace): Promise<void> {
  await dropSchema(demandAddress(server).direct, database).catch((cause: unknown) =>
    say(
      `The schema ${database} could not be taken away on ${serverSaid(server)}. ${(cause as Error).message}`,
    ),
  );
}

function demandCopy(copy: string): Manifest {
  const manifest = manifestOf(copy);
  if (manifest && existsSync(join(copy, DIRECTORY_DUMP))) return manifest;
  const files = existsSync(join(copy, "directory.sqlite"));
  throw new Refusal(
    files ? `The copy in ${copy} is of SQLite files.` : `There is no backup of PostgreSQL in ${copy}.`,
    files
      ? "Leave DATABASE_URL out to put it back. Nothing was changed."
      : "Name the folder of a backup. Nothing was changed.",
  );
}

async function layDirectory(url: string, copy: string, manifest: Manifest): Promise<void> {
  const { digest, rows } = manifest.directory ?? {};
  const file = join(copy, DIRECTORY_DUMP);
  const damage = await layReady({ kind: "directory", place: DIRECTORY, file, digest, rows });
  if (damage)
    throw new Refusal(
      `The directory of this copy cannot be put back. ${damage}`,
      "Take an earlier copy. Nothing was changed.",
    );
  // Who was making a shop when the copy was made is not at it any more.
  await inPostgres(url, async (client) => {
    await client.query(`DELETE FROM "${coming("directory")}"."ShopInMaking"`);
    await carryErasedRows(client, "directory", coming("directory"));
  });
}

/** The shops to put back: all that the copy knows, or the one asked for, where both directories mean the same by it. */
async function chosen({ copy, slug }: Asked, here: readonly ShopRow[]): Promise<ShopRow[]> {
  const all = await shopsIn(coming("directory"));
  if (slug === null) return all;
  const wanted = all.find((shop) => shop.slug === slug);
  if (!wanted)
    throw new Refusal(
      `The copy in ${copy} knows no shop “${slug}”.`,
      `It knows ${all.map((shop) => shop.slug).join(", ") || "none"}. Nothing was changed.`,
    );
  const ours = here.find((shop) => shop.id === wanted.id);
  // It may have been moved since: the directory that stays says where it is.
  if (ours?.database === wanted.database) return [{ ...wanted, server: ours.server }];
  throw new Refusal(
    `This database does not know the shop “${slug}” that the copy holds.`,
    "Restore everything (without --shop), or take an earlier copy. Nothing was changed.",
  );
}

async function shopsIn(schema: string): Promise<ShopRow[]> {
  const client = postgresClient("directory", "", schema, "read");
  try {
    const select = { id: true, slug: true, database: true, server: true } as const;
    return await client.shop.findMany({ select, orderBy: { id: "asc" } });
  } finally {
    await client.$disconnect();
  }
}

/** The shops that are here, also where the directory is of an older version or not there at all. */
async function shopsHere(url: string): Promise<ShopRow[]> {
  return inPostgres(url, async (client) => {
    if (!(await hasTables(client, "directory"))) return [];
    const { rows } = await client.query<Omit<ShopRow, "server"> & { server?: string }>(
      `SELECT * FROM "directory"."Shop" ORDER BY "id"`,
    );
    return rows.map(({ id, slug, database, server = "" }) => ({ id, slug, database, server }));
  });
}

async function stage(copy: string, manifest: Manifest, shop: ShopRow): Promise<Staged> {
  if (!/^[a-z0-9_]+$/.test(shop.database)) throw new Error("Not a database name.");
  const { digest, rows } = manifest.shops.find(({ database }) => database === shop.database) ?? {};
  const file = join(copy, shopDump(shop.database));
  const damage = await layReady({ kind: "shop", place: shop, file, digest, rows });
  const pictures = folderStore(join(copy, "files", shop.database));
  return {
    ...shop,
    damage,
    problems: damage ? [] : await booksAt({ slug: shop.slug, ...comingAt(shop) }, pictures),
  };
}

async function putBack(
  url: string,
  { copy, slug }: Asked,
  staged: readonly Staged[],
  ours: readonly ShopRow[],
): Promise<number> {
  const fit = staged.filter((shop) => shop.damage === null);
  for (const { database } of fit) await givePictures(copy, database);
  const stamp = new Date().toISOString().replace(/\D/g, "").slice(0, 14);
  const whole = slug === null;
  if (whole) await noteServers(url, staysElsewhere(staged, ours));
  const replaced = await swap(
    exchangesOf(staged, whole ? ours : [], whole),
    (schema) => `replaced_${stamp}_${schema}`,
  );
  let wrong = 0;
  for (const shop of fit) {
    const problems = await booksAt(shop, storeOf(shop.database));
    wrong += problems.length;
    say(
      `${shop.slug}: put back${problems.length ? `, and these do not hold: ${problems.join(" ")}` : ", opened and checked"}`,
    );
  }
  if (replaced.length)
    say(
      `What was replaced is in the schemas replaced_${stamp}_…, ${replaced.length} of them${onServers(replaced)}. Drop them, one at a time, once all is well.`,
    );
  const left = staged.length - fit.length;
  if (left) say(`Left as they stand: ${left}.`);
  return wrong || left ? 1 : 0;
}

/** Has the directory that comes say where a shop that stays is. */
async function noteServers(url: string, shops: readonly ShopRow[]): Promise<void> {
  if (shops.length === 0) return;
  await inPostgres(url, async (client) => {
    for (const { database, server } of shops)
      await client.query(`UPDATE "${coming("directory")}"."Shop" SET "server" = $1 WHERE "database" = $2`, [
        server,
        database,
      ]);
  });
}

function onServers(places: readonly DatabasePlace[]): string {
  const some = Map.groupBy(places, ({ server }) => server);
  if (some.size === 1 && some.has("")) return "";
  return ` (${[...some].map(([server, those]) => `${those.length} on ${serverSaid(server)}`).join(", ")})`;
}
