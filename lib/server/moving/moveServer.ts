import { randomInt } from "node:crypto";
import { directory } from "@/lib/db/directory";
import { filesFolder } from "@/lib/db/folders";
import { demandOne } from "@/lib/db/guard";
import { withDatabaseAlone } from "@/lib/db/inUsePostgres";
import { inPostgres } from "@/lib/db/postgres";
import { digestsOf } from "@/lib/db/rows/digest";
import { postgresSource } from "@/lib/db/rows/postgresRows";
import { serverFault } from "@/lib/db/serverFaults";
import { type DatabasePlace, demandAddress, type ShopPlace, serverNames, serverSaid } from "@/lib/db/servers";
import { closeShop } from "@/lib/db/shop";
import { hasTables } from "@/lib/db/shopFaults";
import { dropSchema } from "@/lib/db/shopSchema";
import { Refusal } from "@/lib/domain/refusal";
import { roundHandle, SYSTEM } from "@/lib/gate/handle";
import { photoStore } from "@/lib/outside/photoStore";
import { booksAt } from "../restore/postgres/books";
import { coming } from "../restore/postgres/layReady";
import { problemsIn } from "./checked";
import { fillFrom } from "./fill";

export interface ServerMove {
  readonly slug: string;
  /** Where the shop is to be, as the directory names it. */
  readonly server: string;
}

export interface ServerMoved {
  readonly rows: number;
  /** Where its schema was, and still is until it is removed. */
  readonly from: string;
}

const NOTHING = "Nothing was moved.";

/**
 * Moves a shop's schema from one PostgreSQL server to another: its books are checked on both sides and every table is compared before the
 * directory says where it is now. Its pictures and people stay as they are, and so does its old schema, which nobody enters any more.
 * Where anything fails nothing of it is left on the new server. No app process may be on the installation meanwhile.
 */
export function moveToServer({ slug, server }: ServerMove, now: Date): Promise<ServerMoved> {
  return withDatabaseAlone(
    demandAddress("").direct,
    async () => {
      const shop = await demandShop(slug);
      await demandWay(shop, server);
      const handle = roundHandle(shop, SYSTEM, now);
      // Also brings it up to date, which could not be done once it is held.
      const problems = await problemsIn(handle, photoStore(handle), false);
      await closeShop(shop.database);
      if (problems.length)
        throw new Refusal(`Its books do not add up: ${problems.slice(0, 5).join(" ")}`, NOTHING);
      const rows = await held(shop, () => carry(shop, server));
      return { rows, from: shop.server };
    },
    "move the shop",
  );
}

/** Erases what was left on other servers, once the shop stands on this one. Answers on which. */
export function removeLeft({ slug, server }: ServerMove): Promise<string[]> {
  return withDatabaseAlone(
    demandAddress("").direct,
    async () => {
      const shop = await demandShop(slug);
      const here = demandAddress(shop.server).direct;
      if (shop.server !== server)
        throw new Refusal(
          `The shop “${slug}” is on ${serverSaid(shop.server)}, not on ${serverSaid(server)}.`,
          "Nothing was removed.",
        );
      if (!(await isThere(shop)))
        throw new Refusal(
          `The shop “${slug}” has no schema on ${serverSaid(server)}.`,
          "Nothing was removed.",
        );
      const left: string[] = [];
      for (const other of serverNames()) {
        if (other === server || !(await isThere({ ...shop, server: other }))) continue;
        await demandOther(here, demandAddress(other).direct);
        left.push(other);
      }
      if (left.length === 0)
        throw new Refusal(`Nothing of “${slug}” is left on another server.`, "Nothing was removed.");
      for (const other of left) await dropSchema(demandAddress(other).direct, shop.database);
      return left;
    },
    "remove what was left",
  );
}

async function demandShop(slug: string): Promise<ShopPlace & { readonly id: string }> {
  const shop = await directory().read.shop.findUnique({
    where: { slug },
    select: { id: true, slug: true, database: true, server: true, closedAt: true },
  });
  if (!shop)
    throw new Refusal(`There is no shop “${slug}” on PostgreSQL here.`, "Nothing was moved or removed.");
  if (shop.closedAt)
    throw new Refusal(`The shop “${slug}” is closed here.`, "It may have been moved before.");
  const { closedAt: _, ...place } = shop;
  return place;
}

/** Refuses a move that has no sense, or no way: before anything is begun. */
async function demandWay(shop: ShopPlace, server: string): Promise<void> {
  const [from, to] = [demandAddress(shop.server).direct, demandAddress(server).direct];
  if (shop.server === server)
    throw new Refusal(`The shop “${shop.slug}” is on ${serverSaid(server)} already.`, NOTHING);
  for (const one of [shop.server, server])
    if (await serverFault(one, true))
      throw new Refusal(
        `The database server ${one} cannot be used.`,
        `See that it runs and that the settings lead to it. ${NOTHING}`,
      );
  await demandOther(from, to);
  if (await isThere({ ...shop, server }))
    throw new Refusal(
      `There is a schema ${shop.database} on ${serverSaid(server)} already: an earlier move has left it there.`,
      `Once all is well where the shop is, remove it: npm run move-shop -- ${shop.slug} --to postgresql --server ${serverSaid(shop.server)} --remove-source. ${NOTHING}`,
    );
}

/**
 * Refuses two addresses that lead to one database, whatever they are written as: a schema that is dropped at one would be gone at the
 * other. A lock that one session holds is refused to another only in the same database.
 */
async function demandOther(one: string, other: string): Promise<void> {
  const key = randomInt(2 ** 47);
  await inPostgres(one, async (first) => {
    await first.query("SELECT pg_advisory_lock($1)", [key]);
    await inPostgres(other, async (second) => {
      const { rows } = await second.query<{ free: boolean }>("SELECT pg_try_advisory_lock($1) AS free", [
        key,
      ]);
      if (rows[0]?.free) return;
      throw new Refusal(
        "Both names of servers lead to the same database.",
        "Give each a database of its own in the settings. Nothing was moved or removed.",
      );
    });
  });
}

const isThere = ({ database, server }: DatabasePlace): Promise<boolean> =>
  inPostgres(demandAddress(server).direct, async (client) => {
    const { rows } = await client.query("SELECT 1 FROM pg_namespace WHERE nspname = $1", [database]);
    return rows.length > 0;
  });

/** Runs `run` while nobody can write in a shop: by the lock that each of its writes takes first (shop.ts). */
function held<T>({ database, server }: ShopPlace, run: () => Promise<T>): Promise<T> {
  return inPostgres(demandAddress(server).direct, async (client) => {
    if (!(await hasTables(client, database))) throw new Refusal("Its schema is missing.", NOTHING);
    await client.query(
      `BEGIN; SET LOCAL lock_timeout = '30s'; SET LOCAL idle_in_transaction_session_timeout = 0; LOCK TABLE "${database}"."_prisma_migrations" IN SHARE ROW EXCLUSIVE MODE`,
    );
    return run();
  });
}

/** Makes the schema on its new server, under another name until it is whole. What an earlier try left under that name goes first. */
async function carry(shop: ShopPlace & { readonly id: string }, server: string): Promise<number> {
  const to = demandAddress(server).direct;
  const making = { slug: shop.slug, database: coming(shop.database), server };
  await dropSchema(to, making.database);
  const source = await postgresSource(demandAddress(shop.server).direct, shop.database);
  try {
    const { level } = source;
    const [tables, lastIds] = [await digestsOf(source), await source.lastIds()];
    const rows = await fillFrom({ level, tables, lastIds, rows: (table) => source.rows(table) }, making);
    const store = photoStore({ database: shop.database, files: filesFolder(shop.database) });
    const problems = await booksAt(making, store);
    if (problems.length)
      throw new Refusal(
        `Its books do not add up on ${serverSaid(server)}: ${problems.slice(0, 5).join(" ")}`,
        NOTHING,
      );
    await inPostgres(to, (client) =>
      client.query(`ALTER SCHEMA "${making.database}" RENAME TO "${shop.database}"`),
    );
    await settle(shop, server);
    return rows;
  } finally {
    await source.close();
    // Why it failed counts; what could not be taken away now goes with the next try.
    await dropSchema(to, making.database).catch(() => undefined);
  }
}

/** The directory says from here on where the shop is. Where it cannot be told, the new schema goes again, unless it says so already. */
async function settle(shop: ShopPlace & { readonly id: string }, server: string): Promise<void> {
  const { id, database } = shop;
  try {
    await directory().write((tx) =>
      demandOne(
        tx.shop.updateMany({
          where: { id, database, server: shop.server, closedAt: null },
          data: { server, changes: { increment: 1 } },
        }),
        () => new Refusal("The shop was changed in the directory meanwhile.", NOTHING),
      ),
    );
  } catch (cause) {
    const now = await directory().read.shop.findUnique({ where: { id }, select: { server: true } });
    if (now?.server === server) return;
    await dropSchema(demandAddress(server).direct, database);
    throw cause;
  }
}
