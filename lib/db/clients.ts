import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { PrismaPg } from "@prisma/adapter-pg";
import type { SqlDriverAdapter } from "@prisma/driver-adapter-utils";
import pg from "pg";
import { PrismaClient as PgDirectory } from "./generated/postgresql/directory/client";
import { PrismaClient as PgShop } from "./generated/postgresql/shop/client";
import { PrismaClient as SqliteDirectory } from "./generated/sqlite/directory/client";
import { PrismaClient as SqliteShop } from "./generated/sqlite/shop/client";
import type { DatabaseKind } from "./schemaFiles";

/** The SQLite types stand for both providers: the two clients are generated from one schema text. */
export type DirectoryClient = SqliteDirectory;
export type ShopClient = SqliteShop;

const PRAGMAS = {
  journal_mode: "WAL",
  synchronous: "FULL",
  foreign_keys: "ON",
  busy_timeout: "5000",
  trusted_schema: "OFF",
} as const;

const WANTED = { journal_mode: "wal", synchronous: "2", foreign_keys: "1", busy_timeout: "5000", trusted_schema: "0" } as const;

/** Every connection gets our pragmas, and opening fails where SQLite did not take one. */
class GuardedSqlite extends PrismaBetterSqlite3 {
  constructor(
    url: string,
    private readonly readonlyFile: boolean,
  ) {
    super({ url, readonly: readonlyFile });
  }
  override async connect(): Promise<SqlDriverAdapter> {
    const adapter = await super.connect();
    for (const [name, value] of Object.entries(PRAGMAS))
      if (!(this.readonlyFile && name === "journal_mode")) await adapter.executeScript(`PRAGMA ${name} = ${value}`);
    for (const [name, wanted] of Object.entries(WANTED)) {
      const { rows } = await adapter.queryRaw({ sql: `PRAGMA ${name}`, args: [], argTypes: [] });
      if (String(rows[0]?.[0]) !== wanted) throw new Error(`SQLite did not take ${name} = ${wanted}.`);
    }
    return adapter;
  }
}

export function sqliteClient(kind: "directory", file: string, readonly: boolean): DirectoryClient;
export function sqliteClient(kind: "shop", file: string, readonly: boolean): ShopClient;
export function sqliteClient(kind: DatabaseKind, file: string, readonly: boolean): DirectoryClient | ShopClient {
  const adapter = new GuardedSqlite(`file:${file}`, readonly);
  return kind === "directory" ? new SqliteDirectory({ adapter }) : new SqliteShop({ adapter });
}

const pools = globalThis as unknown as { throttlewrightPool?: pg.Pool };

/** One connection pool serves every schema. */
function pool(url: string): pg.Pool {
  pools.throttlewrightPool ??= new pg.Pool({ connectionString: url, max: 20 });
  return pools.throttlewrightPool;
}

export async function closePool(): Promise<void> {
  await pools.throttlewrightPool?.end();
  delete pools.throttlewrightPool;
}

export function postgresClient(kind: "directory", url: string, schema: string): DirectoryClient;
export function postgresClient(kind: "shop", url: string, schema: string): ShopClient;
export function postgresClient(kind: DatabaseKind, url: string, schema: string): DirectoryClient | ShopClient {
  const adapter = new PrismaPg(pool(url), { schema });
  const client = kind === "directory" ? new PgDirectory({ adapter }) : new PgShop({ adapter });
  return client as unknown as DirectoryClient | ShopClient;
}
