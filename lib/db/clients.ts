import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { PrismaPg } from "@prisma/adapter-pg";
import type { SqlDriverAdapter, SqlQuery, SqlQueryable } from "@prisma/driver-adapter-utils";
import type Database from "better-sqlite3";
import { countStatement } from "@/lib/log/request";
import { PrismaClient as PgDirectory } from "./generated/postgresql/directory/client";
import { PrismaClient as PgShop } from "./generated/postgresql/shop/client";
import { PrismaClient as SqliteDirectory } from "./generated/sqlite/directory/client";
import { PrismaClient as SqliteShop } from "./generated/sqlite/shop/client";
import { giveWay } from "./giveWay";
import { inOrder } from "./inOrder";
import { ANY_SCHEMA, inSchema } from "./inSchema";
import { whenUnlocked } from "./lockWait";
import { pool, type Use } from "./pools";
import type { DatabaseKind } from "./schemaFiles";
import { type Built, type SharedClient, sharedClient } from "./sharedClient";
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

/** A shop in the making asks so many times as many different questions as one at work. */
const TIMES_WHILE_MAKING = 10;

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
  holder.client = new SqliteConnection(holder.client, writes, failed, flushing ? 1 : TIMES_WHILE_MAKING);
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
    countStatement();
    const answer = await query(asked);
    await giveWay();
    return answer;
  };
  queries.executeRaw = async (asked: SqlQuery) => {
    countStatement();
    const changed = await execute(asked);
    await giveWay();
    return changed;
  };
  return queries;
}

/** Waited for before a connection is opened. */
type Ready = () => Promise<void>;
const atOnce: Ready = async () => {};

export function sqliteClient(kind: "directory", file: string, readonly: boolean): DirectoryClient;
export function sqliteClient(
  kind: "shop",
  file: string,
  readonly: boolean,
  failed?: (cause: unknown) => void,
  ready?: Ready,
): ShopClient;
export function sqliteClient(
  kind: DatabaseKind,
  file: string,
  readonly: boolean,
  failed: (cause: unknown) => void = () => {},
  ready: Ready = atOnce,
): DirectoryClient | ShopClient {
  const guarded = new GuardedSqlite(`file:${file}`, readonly, failed);
  const client = shared("sqlite", kind, guarded).on(async () => {
    await ready();
    return guarded.connect();
  });
  return client as unknown as DirectoryClient | ShopClient;
}

type Provider = "sqlite" | "postgresql";

const CLIENTS = {
  sqlite: { directory: SqliteDirectory, shop: SqliteShop },
  postgresql: { directory: PgDirectory, shop: PgShop },
};

/** Once a process: the server's own code and Next.js's bundles each have a copy of this module. */
const kept = globalThis as unknown as { throttlewrightClients?: Map<string, SharedClient> };
kept.throttlewrightClients ??= new Map();
const clients = kept.throttlewrightClients;

/** The shared client of a kind of database. */
function shared(provider: Provider, kind: DatabaseKind, built: Built): SharedClient {
  const found = clients.get(`${provider} ${kind}`) ?? sharedClient(CLIENTS[provider][kind], built);
  clients.set(`${provider} ${kind}`, found);
  return found;
}

export function postgresClient(kind: "directory", server: string, schema: string, use: Use): DirectoryClient;
export function postgresClient(
  kind: "shop",
  server: string,
  schema: string,
  use: Use,
  ready?: Ready,
): ShopClient;
export function postgresClient(
  kind: DatabaseKind,
  server: string,
  schema: string,
  use: Use,
  ready: Ready = atOnce,
): DirectoryClient | ShopClient {
  const adapter = new PrismaPg(pool(server, use), { schema });
  const { provider, adapterName } = adapter;
  const connectionInfo = { schemaName: ANY_SCHEMA, supportsRelationJoins: true };
  const client = shared("postgresql", kind, { provider, adapterName, connectionInfo }).on(async () => {
    await ready();
    return watched(inSchema(await adapter.connect(), schema));
  });
  return client as unknown as DirectoryClient | ShopClient;
}

/** Statements of a request are counted here as on SQLite, and those of a transaction put in order. */
function watched(adapter: SqlDriverAdapter): SqlDriverAdapter {
  const begin = adapter.startTransaction.bind(adapter);
  adapter.startTransaction = async (level) => givingWay(inOrder(await begin(level)));
  return givingWay(adapter);
}
