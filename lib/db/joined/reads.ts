import { postgresUrl } from "../folders";
import type { DatabaseKind } from "../schemaFiles";
import { askerOf } from "../sharedClient";
import { Asking, LeftToPrisma, type Words, words } from "./asking";
import { summedByGroup } from "./groups";
import { EACH_ONCE, listOf, rowOf } from "./row";
import { counted, summed } from "./sums";
import { type Table, tablesOf } from "./tables";
import { type Part, type Rows, Together } from "./together";

interface Raw {
  $queryRawUnsafe(sql: string, ...values: unknown[]): PromiseLike<unknown>;
}

type Read = (args?: unknown) => PromiseLike<unknown>;

const ONE = new Set(["findUnique", "findFirst", "findUniqueOrThrow", "findFirstOrThrow"]);
const SUMS = ["_sum", "_min", "_max", "_count", "_avg"];
const READS = new Set([...ONE, "findMany", "count", "aggregate", "groupBy"]);
/** Longer lists are left to Prisma's client, which reads their tables one by one and gives way to others between. */
const LONGEST = 2_000;
/** A list without a limit is a short one, or asks for given ids. Judgement. */
const UNLIMITED = 500;

/**
 * A client for one request whose reads are answered by few statements: a row comes with the rows it is linked with, and reads
 * that are asked for at the same moment are parts of one statement. Prisma's client asks one for each table of each read. What
 * is asked in words not understood here is left to it, and all that does not read.
 */
export function joinedReads<Client extends Raw>(client: Client, kind: DatabaseKind, schema: string): Client {
  const tables = tablesOf(kind);
  const place = postgresUrl() === undefined ? undefined : schema;
  const together = new Together(rowsBy(client, place), () => new Asking(tables, place));
  const delegates = new Map<string | symbol, object>();
  return new Proxy(client, {
    get(target, name) {
      const found = delegates.get(name);
      if (found) return found;
      const own: unknown = Reflect.get(target, name, target);
      const table = typeof name === "string" ? tables.get(capital(name)) : undefined;
      if (!table || typeof own !== "object" || own === null) return own;
      const made = delegateOf(own, table, together);
      delegates.set(name, made);
      return made;
    },
  });
}

/** On SQLite past Prisma's client, which takes three times as long for a statement as SQLite does; PostgreSQL is far away anyhow. */
function rowsBy(client: Raw, schema: string | undefined): Rows {
  const ask = schema === undefined ? askerOf(client) : undefined;
  if (ask) return ask;
  return async (sql, values) => {
    const rows = (await client.$queryRawUnsafe(sql, ...values)) as Record<string, unknown>[];
    return rows.map((row) => Object.values(row));
  };
}

const capital = (name: string) => name.charAt(0).toUpperCase() + name.slice(1);

function delegateOf(own: object, table: Table, together: Together): object {
  return new Proxy(own, {
    get(target, name) {
      const prisma = () => Reflect.get(target, name, target) as Read;
      if (!READS.has(String(name))) return prisma();
      return (args?: unknown) =>
        together.ask(
          (ask) => partOf(ask, String(name), table, args),
          () => prisma()(args),
        );
    },
  });
}

/** One read as a part of a statement, and what it answers; undefined where Prisma's client is to say that there is none. */
function partOf(ask: Asking, name: string, table: Table, args: unknown): Part {
  const given = args === undefined ? {} : words(args);
  if (name === "count") return counted(ask, table, given);
  if (name === "aggregate") return summed(ask, table, given);
  if (typeof given.take === "number" && given.take > LONGEST) throw new LeftToPrisma();
  if (name === "groupBy" && SUMS.some((sum) => given[sum] !== undefined))
    return summedByGroup(ask, table, given, UNLIMITED);
  if (name === "groupBy") return partOf(ask, "findMany", table, grouped(given));
  if (name.startsWith("findUnique")) demandKey(given.where);
  const alias = ask.alias();
  const row = rowOf(ask, table, alias, given);
  const one = ONE.has(name);
  const sql = listOf(ask, table, alias, row, one ? { ...given, take: 1 } : given);
  const none = name.endsWith("OrThrow") ? undefined : null;
  return {
    sql,
    rows: one ? 1 : typeof given.take === "number" ? given.take : UNLIMITED,
    read: (answer: string) => {
      const rows = (JSON.parse(answer) as unknown[][]).map((values) => row.read(values, 0));
      return one ? (rows[0] ?? none) : rows;
    },
  };
}

/** Without its key any row would be the one: the client refuses that. */
function demandKey(where: unknown): void {
  const key = Object.values(words(where));
  if (key.length === 0 || key.includes(undefined)) throw new LeftToPrisma();
}

/** Groups of which nothing is added up: each combination of some columns once. */
function grouped({ by, where, orderBy, take, ...others }: Words): Words {
  if (Object.values(others).some((word) => word !== undefined) || !Array.isArray(by))
    throw new LeftToPrisma();
  return {
    select: Object.fromEntries(by.map((name) => [name, true])),
    where,
    orderBy,
    take,
    [EACH_ONCE]: by,
  };
}
