import { postgresUrl } from "./places";
import type { ShopHandle } from "./shop";

/** The tables that migration 0011 keeps trigrams of. */
export type SearchTable = "Customer" | "Bike" | "Quote" | "Job" | "Invoice" | "Part";

/** One folded word of a search; for parts also the size it says, in thousandths. */
export interface SearchWord {
  readonly text: string;
  readonly size?: number | null;
}

export interface SearchHit {
  readonly table: SearchTable;
  readonly id: number;
}

type Ask = (value: string | number) => string;

/**
 * Ids of the rows that hold every word, newest first, at most `most` of each table: all tables in one query. With
 * `number`, quotes, jobs and invoices of that number come as well, beyond `most`.
 *
 * A word of three letters or more is looked up in the trigrams. A shorter one has none: beside a longer word it is looked
 * for in what that one found, alone the rows are walked from the newest until enough hold it.
 */
export async function idsHolding(
  shop: ShopHandle,
  tables: readonly { table: SearchTable; most: number }[],
  words: readonly SearchWord[],
  number: number | null = null,
): Promise<SearchHit[]> {
  const values: (string | number)[] = [];
  const postgres = postgresUrl() !== undefined;
  const ask: Ask = (value) => {
    values.push(value);
    return postgres ? `$${values.length}` : "?";
  };
  const from = postgres ? `"${shop.database}".` : "";
  const queries = tables.flatMap(({ table, most }) => {
    const holding = postgres ? inPostgres(from, table, words, ask) : inSqlite(table, words, ask);
    const worded = `SELECT '${table}' AS "table", "id" FROM (${holding} LIMIT ${ask(most)}) AS "held"`;
    const numbered = number !== null && (table === "Quote" || table === "Job" || table === "Invoice");
    return numbered ? [worded, byNumber(from, table, ask(number))] : [worded];
  });
  if (queries.length === 0 || words.length === 0) return [];
  const rows = await shop.read.$queryRawUnsafe<{ table: SearchTable; id: number | bigint }[]>(
    queries.join(" UNION "),
    ...values,
  );
  return rows.map(({ table, id }) => ({ table, id: Number(id) })).sort((a, b) => b.id - a.id);
}

function byNumber(from: string, table: SearchTable, number: string): string {
  // Invoices are numbered within their kind, and the index begins with it.
  const kind = table === "Invoice" ? `"kind" IN ('invoice', 'creditNote') AND ` : "";
  return `SELECT '${table}' AS "table", "id" FROM ${from}"${table}" WHERE ${kind}"number" = ${number}`;
}

const SHORTEST = 3;

/** FTS5 counts letters by code point. In quotes no sign of a word is an operator. Source: SQLite's FTS5, sections 3.1 and 4.3.4. */
function inSqlite(table: SearchTable, words: readonly SearchWord[], ask: Ask): string {
  const long = words.filter((word) => [...word.text].length >= SHORTEST);
  const short = words.filter((word) => !long.includes(word)).map((word) => shortInSqlite(table, word, ask));
  if (long.length === 0) return `SELECT "id" FROM "${table}" WHERE ${short.join(" AND ")} ORDER BY "id" DESC`;
  const match = long.map(({ text, size }) => {
    const phrase = `"${text.replaceAll('"', '""')}"`;
    if (table !== "Part") return phrase;
    return size == null ? `{words} : ${phrase}` : `({words} : ${phrase} OR {size} : "=${size}=")`;
  });
  const trigrams = `"${table}Search"`;
  // Rows stand there under their ids' negatives. CROSS JOIN keeps the trigrams outside, so that they stop at the limit.
  const rows = short.length === 0 ? "" : ` CROSS JOIN "${table}" ON "id" = -${trigrams}.rowid`;
  const also = short.map((condition) => `${condition} AND `).join("");
  return `SELECT -${trigrams}.rowid AS "id" FROM ${trigrams}${rows} WHERE ${also}${trigrams} MATCH ${ask(match.join(" AND "))} ORDER BY ${trigrams}.rowid`;
}

function shortInSqlite(table: SearchTable, { text, size }: SearchWord, ask: Ask): string {
  const held = `instr("searchKey", ${ask(text)}) > 0`;
  if (table !== "Part") return held;
  const coded = `"id" IN (SELECT "partId" FROM "PartSupplier" WHERE instr("codeKey", ${ask(text)}) > 0)`;
  return `(${held} OR ${coded}${size == null ? "" : ` OR "sizeMilli" = ${ask(size)}`})`;
}

/** The trigram index is asked by LIKE. Words hold none of its jokers (searchWords). */
function inPostgres(from: string, table: SearchTable, words: readonly SearchWord[], ask: Ask): string {
  const held = words.map(({ text, size }) => {
    const like = `"words" LIKE ${ask(`%${text}%`)}`;
    return table === "Part" && size != null ? `(${like} OR "size" = ${ask(size)})` : like;
  });
  return `SELECT "id" FROM ${from}"${table}Search" WHERE ${held.join(" AND ")} ORDER BY "id" DESC`;
}
