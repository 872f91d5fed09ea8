import { postgresUrl } from "./folders";
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
 * A word of two letters or more is looked up in the trigrams (on PostgreSQL of three). A single letter has none: rows
 * are walked from the newest until enough hold it.
 */
export async function idsMatching(
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

/** FTS5 counts letters by code point. */
const letters = (text: string) => [...text].length;

/** In quotes no sign is an operator. Source: SQLite's FTS5, sections 3.1 (strings) and 4.3.4 (the trigram tokenizer). */
const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;

/** A part's size stands between signs, so that it is found whole. */
const sized = (size: number) => `{size} : "=${size}="`;

function inSqlite(table: SearchTable, words: readonly SearchWord[], ask: Ask): string {
  const single = words.filter(({ text }) => letters(text) === 1).map((word) => oneLetter(table, word, ask));
  if (single.length === words.length)
    return `SELECT "id" FROM "${table}" WHERE ${single.join(" AND ")} ORDER BY "id" DESC`;
  const match = words
    .filter(({ text }) => letters(text) > 1)
    .map((word) => (letters(word.text) === 2 ? twoLetters(table, word, ask) : manyLetters(table, word, ask)))
    .join(` || ' AND ' || `);
  const trigrams = `"${table}Search"`;
  // Rows stand there under their ids' negatives. CROSS JOIN keeps the trigrams outside, so that they stop at the limit.
  const rows = single.length === 0 ? "" : ` CROSS JOIN "${table}" ON "id" = -${trigrams}.rowid`;
  // Values are bound in the order they were asked for in.
  const also = single.map((condition) => `${condition} AND `).join("");
  return `SELECT -${trigrams}.rowid AS "id" FROM ${trigrams}${rows} WHERE ${also}${trigrams} MATCH (${match}) ORDER BY ${trigrams}.rowid`;
}

/** SQL for a piece of a MATCH: a word is the phrase of its trigrams. */
function manyLetters(table: SearchTable, { text, size }: SearchWord, ask: Ask): string {
  const held = table === "Part" ? `{words} : ${quoted(text)}` : quoted(text);
  return ask(table === "Part" && size != null ? `(${held} OR ${sized(size)})` : held);
}

/** Stands in no key, since keys hold nothing that does not print. */
const NOWHERE = `'"' || char(1, 1, 1) || '"'`;

/** The same of two letters: any of the trigrams that begin with them. */
function twoLetters(table: SearchTable, { text, size }: SearchWord, ask: Ask): string {
  const begins = `"term" >= ${ask(text)} AND "term" < ${ask(`${text}\u{10ffff}`)}`;
  const any = `(SELECT group_concat('"' || replace("term", '"', '""') || '"', ' OR ') FROM "${table}Trigram" WHERE ${begins})`;
  const held = `'(' || coalesce(${any}, ${NOWHERE}) || ')'`;
  if (table !== "Part") return held;
  return `'({words} : ' || ${held} || ${ask(size == null ? ")" : ` OR ${sized(size)})`)}`;
}

/** A single letter stands in most rows: it is looked for in what the other words found, else from the newest row on. */
function oneLetter(table: SearchTable, { text }: SearchWord, ask: Ask): string {
  const held = `instr("searchKey", ${ask(text)}) > 0`;
  return table === "Part"
    ? `(${held} OR "id" IN (SELECT "partId" FROM "PartSupplier" WHERE instr("codeKey", ${ask(text)}) > 0))`
    : held;
}

/** The trigram index is asked by LIKE. Words hold none of its jokers (searchWords). */
function inPostgres(from: string, table: SearchTable, words: readonly SearchWord[], ask: Ask): string {
  const held = words.map(({ text, size }) => {
    const like = `"words" LIKE ${ask(`%${text}%`)}`;
    return table === "Part" && size != null ? `(${like} OR "size" = ${ask(size)})` : like;
  });
  return `SELECT "id" FROM ${from}"${table}Search" WHERE ${held.join(" AND ")} ORDER BY "id" DESC`;
}
