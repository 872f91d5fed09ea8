import { readFileSync } from "node:fs";
import { join } from "node:path";
import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { PrismaPg } from "@prisma/adapter-pg";
import {
  bindMigrationAwareSqlAdapterFactory,
  DriverAdapterError,
  type SqlDriverAdapter,
} from "@prisma/driver-adapter-utils";
import type { SchemaEngine } from "@prisma/schema-engine-wasm";
import type pg from "pg";
import { projectRoot } from "./folders";
import { type DatabaseKind, schemaFiles } from "./schemaFiles";
import type { SearchTable } from "./search";

/** Where a migration runs: a SQLite file, or a schema of a PostgreSQL database. */
export type MigrationTarget =
  | { provider: "sqlite"; file: string }
  | { provider: "postgresql"; url: string; schema: string };

/** The nouns that migration 0011 made a table of trigrams for. */
export const SEARCHED: readonly SearchTable[] = ["Customer", "Bike", "Quote", "Job", "Invoice", "Part"];

/**
 * Tables that the schema does not know, or the next migration would drop them. On SQLite they are virtual, and each
 * has shadow tables beside it that FTS5 keeps its index in; on PostgreSQL they are named with their schema.
 */
export function notOurs(kind: DatabaseKind, place: MigrationTarget) {
  const nouns = kind === "shop" ? SEARCHED : [];
  const made = ["Search", "Search_config", "Search_data", "Search_docsize", "Search_idx", "Trigram"];
  const externalTables =
    place.provider === "sqlite"
      ? nouns.flatMap((noun) => made.map((suffix) => noun + suffix))
      : nouns.map((noun) => `${place.schema}.${noun}Search`);
  return { externalTables, externalEnums: [] };
}

/** The engine holds its SQLite connection after `free()`: keep what it opened, so that it can be closed. */
class ClosableSqlite extends PrismaBetterSqlite3 {
  readonly opened: SqlDriverAdapter[] = [];
  override async connect(): Promise<SqlDriverAdapter> {
    const adapter = await super.connect();
    this.opened.push(adapter);
    return adapter;
  }
}

/** Type numbers of pg_type: "char" (18) and char(n) (1042). */
const CATALOGUE_CHAR = 18;
const CHARACTER = 1042;

/**
 * One session for all the engine does, since its advisory lock belongs to a session and ends with it. Scripts go
 * to the server whole: the stock adapter cuts them at every semicolon, also inside a trigger's function. And it
 * refuses the one-letter type "char" of PostgreSQL's catalogue, which the engine reads constraints by.
 */
class ClosablePostgres extends PrismaPg {
  readonly opened: SqlDriverAdapter[] = [];
  constructor(url: string, schema: string) {
    super({ connectionString: url, options: `-c search_path=${schema}`, max: 1 }, { schema });
  }
  override async connect(): ReturnType<PrismaPg["connect"]> {
    const adapter = await super.connect();
    const pool = adapter.underlyingDriver();
    const ask = pool.query.bind(pool) as unknown as (query: pg.QueryConfig) => Promise<pg.QueryArrayResult>;
    adapter.executeScript = async (script) => {
      await ask({ text: script }).catch((cause: pg.DatabaseError) => {
        throw new DriverAdapterError(told(cause));
      });
    };
    const readable = async (query: pg.QueryConfig) => {
      const answer = await ask(query);
      for (const field of answer.fields)
        if (field.dataTypeID === CATALOGUE_CHAR) field.dataTypeID = CHARACTER;
      return answer;
    };
    Object.assign(pool, { query: readable });
    this.opened.push(adapter);
    return adapter;
  }
}

/** What the engine wants to know of a failed statement, so that it can say it. */
function told({ code = "XX000", severity = "ERROR", message, detail, column, hint }: pg.DatabaseError) {
  const said = { originalCode: code, originalMessage: message };
  return { kind: "postgres" as const, ...said, code, severity, message, detail, column, hint };
}

let wasmReady: Promise<typeof SchemaEngine> | undefined;

async function loadEngine(): Promise<typeof SchemaEngine> {
  wasmReady ??= (async () => {
    const glue = await import("@prisma/schema-engine-wasm/schema_engine_bg");
    const file = join(projectRoot, "node_modules/@prisma/schema-engine-wasm/schema_engine_bg.wasm");
    const imports = { "./schema_engine_bg.js": glue as unknown as WebAssembly.ModuleImports };
    const { instance } = await WebAssembly.instantiate(readFileSync(file), imports);
    const bound = glue as unknown as { __wbg_set_wasm(e: unknown): void; SchemaEngine: typeof SchemaEngine };
    bound.__wbg_set_wasm(instance.exports);
    (instance.exports.__wbindgen_start as () => void)();
    return bound.SchemaEngine;
  })();
  return wasmReady;
}

/** Runs `use` with Prisma's schema engine on one database; closes every connection it opened. */
export async function withEngine<T>(
  kind: DatabaseKind,
  place: MigrationTarget,
  use: (engine: SchemaEngine) => Promise<T>,
): Promise<T> {
  const Engine = await loadEngine();
  const factory =
    place.provider === "sqlite"
      ? new ClosableSqlite({ url: `file:${place.file}` })
      : new ClosablePostgres(place.url, place.schema);
  const engine = await Engine.new(
    { datamodels: schemaFiles(kind, place.provider) },
    () => {},
    bindMigrationAwareSqlAdapterFactory(factory),
  );
  try {
    return await use(engine);
  } finally {
    engine.free();
    for (const adapter of factory.opened) await adapter.dispose().catch(ignoreClosed);
  }
}

/** Closing twice is the only failure expected here: the engine may have closed its adapter itself. */
function ignoreClosed(cause: unknown): void {
  if (!(cause instanceof Error && /not open|closed|more than once/i.test(cause.message))) throw cause;
}
