import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { PrismaPg } from "@prisma/adapter-pg";
import type { SqlDriverAdapter, SqlQuery, SqlQueryable } from "@prisma/driver-adapter-utils";
import type Database from "better-sqlite3";
import pg from "pg";
import { log } from "@/lib/log/log";
import { PrismaClient as PgDirectory } from "./generated/postgresql/directory/client";
import { PrismaClient as PgShop } from "./generated/postgresql/shop/client";
import { PrismaClient as SqliteDirectory } from "./generated/sqlite/directory/client";
import { PrismaClient as SqliteShop } from "./generated/sqlite/shop/client";
import { giveWay } from "./giveWay";
import { whenUnlocked } from "./lockWait";
import type { DatabaseKind } from "./schemaFiles";
import { type SharedClient, sharedClient } from "./sharedClient";
import { SqliteConnection } from "./sqliteConnection";

/** The SQLite types stand for both providers: the two clients are generated from one schema text. */
export type DirectoryClient = SqliteDirectory;
export type ShopClient = SqliteShop;

/** Nothing waits inside SQLite, which would stop the process: see lockWait.ts. */
const PRAGMAS = {
  journal_mode: "WAL",
  synchronous: "FULL",
  foreign_keys: "ON",
  busy_timeout: "0",
  trusted_schema: "OFF",
  // KiB of pages for each connection: SQLite's own default. The driver's is eight times that, for each of two connections of a shop.
  cache_size: "-2000",
} as const;

const WANTED = {
  journal_mode: "wal",
  synchronous: "2",
  foreign_keys: "1",
  busy_timeout: "0",
  trusted_schema: "0",
  cache_size: "-2000",
} as const;

/** A shop in the making asks more different questions than one at work. */
const KEPT_WHILE_MAKING = 1_000;

let flushing = true;

/**
 * Runs what makes databases that nobody uses yet: files opened meanwhile are not flushed to the disk at each commit. Whoever makes them
 * flushes them before they are moved to where they count.
 */
export async function withoutFlushing<T>(run: () => Promise<T>): Promise<T> {
  flushing = false;
  try {
    return await run();
  } finally {
    flushing = true;
  }
}

/** Every connection gets our pragmas, and opening fails where SQLite did not take one. */
class GuardedSqlite extends PrismaBetterSqlite3 {
  constructor(
    url: string,
    private readonly readonlyFile: boolean,
    private readonly failed: (cause: unknown) => void,
  ) {
    super({ url, readonly: readonlyFile, timeout: 0 });
  }
  override async connect(): Promise<SqlDriverAdapter> {
    try {
      return await whenUnlocked(() => this.guarded());
    } catch (cause) {
      this.failed(cause);
      throw cause;
    }
  }

  private async guarded(): Promise<SqlDriverAdapter> {
    const adapter = await super.connect();
    try {
      return await this.withPragmas(adapter);
    } catch (cause) {
      await adapter.dispose();
      throw cause;
    }
  }

  private async withPragmas(adapter: SqlDriverAdapter): Promise<SqlDriverAdapter> {
    const making = flushing ? {} : { synchronous: "OFF" };
    for (const [name, value] of Object.entries({ ...PRAGMAS, ...making }))
      if (!(this.readonlyFile && name === "journal_mode"))
        await adapter.executeScript(`PRAGMA ${name} = ${value}`);
    const made = flushing ? {} : { synchronous: "0" };
    for (const [name, wanted] of Object.entries({ ...WANTED, ...made })) {
      const { rows } = await adapter.queryRaw({ sql: `PRAGMA ${name}`, args: [], argTypes: [] });
      if (String(rows[0]?.[0]) !== wanted) throw new Error(`SQLite did not take ${name} = ${wanted}.`);
    }
    return onOurConnection(adapter, !this.readonlyFile, this.failed);
  }
}

/** Puts our connection in the place of the adapter's own; a release of the adapter that keeps it elsewhere is refused. */
function onOurConnection(
  adapter: SqlDriverAdapter,
  writes: boolean,
  failed: (cause: unknown) => void,
): SqlDriverAdapter {
  const holder = adapter as SqlDriverAdapter & { client?: Database.Database | SqliteConnection };
  if (!(holder.client && "pragma" in holder.client))
    throw new Error("The SQLite adapter does not hold its connection as `client` any more.");
  holder.client = new SqliteConnection(
    holder.client,
    writes,
    failed,
    flushing ? undefined : KEPT_WHILE_MAKING,
  );
  const begin = adapter.startTransaction.bind(adapter);
  adapter.startTransaction = async (level) => {
    const transaction = await begin(level);
    try {
      if (writes) await whenUnlocked(() => transaction.executeRaw(TAKE_WRITE_LOCK));
    } catch (cause) {
      // Or the adapter would wait for the end of this one before it begins another.
      await transaction.rollback();
      throw cause;
    }
    return givingWay(transaction);
  };
  const query = adapter.queryRaw.bind(adapter);
  adapter.queryRaw = (asked) => whenUnlocked(() => query(asked));
  return givingWay(adapter);
}

/**
 * A transaction that reads before it writes fails at once where another process has written meanwhile; one that begins
 * with the write lock waits its turn.
 */
const TAKE_WRITE_LOCK: SqlQuery = { sql: "BEGIN IMMEDIATE", args: [], argTypes: [] };

/** After a query others are served where the turn has lasted long enough. */
function givingWay<Q extends SqlQueryable>(queries: Q): Q {
  const [query, execute] = [queries.queryRaw.bind(queries), queries.executeRaw.bind(queries)];
  queries.queryRaw = async (asked: SqlQuery) => {
    const answer = await query(asked);
    await giveWay();
    return answer;
  };
  queries.executeRaw = async (asked: SqlQuery) => {
    const changed = await execute(asked);
    await giveWay();
    return changed;
  };
  return queries;
}

export function sqliteClient(kind: "directory", file: string, readonly: boolean): DirectoryClient;
export function sqliteClient(
  kind: "shop",
  file: string,
  readonly: boolean,
  failed?: (cause: unknown) => void,
): ShopClient;
export function sqliteClient(
  kind: DatabaseKind,
  file: string,
  readonly: boolean,
  failed: (cause: unknown) => void = () => {},
): DirectoryClient | ShopClient {
  const guarded = new GuardedSqlite(`file:${file}`, readonly, failed);
  const client = shared(kind, guarded).on(() => guarded.connect());
  return client as unknown as DirectoryClient | ShopClient;
}

/** Once a process: the server's own code and Next.js's bundles each have a copy of this module. */
const kept = globalThis as unknown as { throttlewrightClients?: Partial<Record<DatabaseKind, SharedClient>> };

function shared(kind: DatabaseKind, { provider, adapterName }: GuardedSqlite): SharedClient {
  kept.throttlewrightClients ??= {};
  kept.throttlewrightClients[kind] ??= sharedClient(
    kind === "directory" ? SqliteDirectory : SqliteShop,
    provider,
    adapterName,
  );
  return kept.throttlewrightClients[kind];
}

type Use = "read" | "write";

const pools = globalThis as unknown as { throttlewrightPools?: Partial<Record<Use, pg.Pool>> };

/** Together below a server's usual 100 connections with several app processes beside each other. */
const MOST: Record<Use, number> = { read: 12, write: 8 };

/** A write that waits, or whose process stands still, must not keep a shop's turn for ever (store.ts: 60 s). */
const SESSION: Record<Use, string> = {
  read: "SET default_transaction_read_only = on",
  write: "SET lock_timeout = '25s'; SET idle_in_transaction_session_timeout = '75s'",
};

/** One pool for reads and one for writes serve every schema; the server itself refuses a write on the first. */
function pool(url: string, use: Use): pg.Pool {
  pools.throttlewrightPools ??= {};
  pools.throttlewrightPools[use] ??= opened(url, use);
  return pools.throttlewrightPools[use];
}

function opened(url: string, use: Use): pg.Pool {
  const made = new pg.Pool({
    connectionString: url,
    max: MOST[use],
    onConnect: async (client) => {
      await client.query(SESSION[use]);
    },
  });
  // Each open shop listens to the pool; the count is bounded by SHOPS_OPEN.
  made.setMaxListeners(0);
  made.on("error", (cause) => log().warn({ err: cause }, "PostgreSQL closed an idle connection."));
  return made;
}

export async function closePool(): Promise<void> {
  const open = Object.values(pools.throttlewrightPools ?? {});
  delete pools.throttlewrightPools;
  for (const one of open) await one.end();
}

export function postgresClient(kind: "directory", url: string, schema: string, use: Use): DirectoryClient;
export function postgresClient(kind: "shop", url: string, schema: string, use: Use): ShopClient;
export function postgresClient(
  kind: DatabaseKind,
  url: string,
  schema: string,
  use: Use,
): DirectoryClient | ShopClient {
  const adapter = new PrismaPg(pool(url, use), { schema });
  const client = kind === "directory" ? new PgDirectory({ adapter }) : new PgShop({ adapter });
  return client as unknown as DirectoryClient | ShopClient;
}
