import Database from "better-sqlite3";
import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ColumnType, Table, Value } from "@/lib/db/rows/rows";
import { inOrder } from "@/lib/db/rows/rows";
import { fromSqlite, toSqlite } from "@/lib/db/rows/sqliteColumns";
import { csvHead, csvLine } from "@/lib/server/moving/csvLines";

const TYPES: Record<ColumnType, string> = {
  integer: "BIGINT",
  real: "REAL",
  text: "TEXT",
  boolean: "BOOLEAN",
  instant: "DATETIME",
  json: "JSONB",
  bytes: "BLOB",
};
const COLUMNS = Object.keys(TYPES) as ColumnType[];
const TABLE: Table = {
  name: "Hard",
  columns: COLUMNS.map((type) => ({ name: type, type })),
  key: [],
};

const raw = new Database(":memory:");
raw.exec(`CREATE TABLE "Hard" (${COLUMNS.map((type) => `"${type}" ${TYPES[type]}`).join(", ")})`);
const insert = raw.prepare(`INSERT INTO "Hard" VALUES (${COLUMNS.map(() => "?").join(", ")})`);
const read = raw.prepare(
  `SELECT ${COLUMNS.map((type) => `"${type}", typeof("${type}")`).join(", ")} FROM "Hard"`,
);
read.safeIntegers().raw();

/** Keeps one row and answers it as SQLite has it, with the class of each value. */
function kept(values: unknown[]): unknown[] {
  raw.exec(`DELETE FROM "Hard"`);
  insert.run(values);
  return read.get() as unknown[];
}

const orNull = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: null });
const hard = fc.tuple(
  orNull(fc.bigInt({ min: -(2n ** 63n), max: 2n ** 63n - 1n })),
  orNull(fc.double({ noNaN: true })),
  orNull(fc.string({ unit: "binary" }).filter((text) => text.isWellFormed() && !text.includes("\0"))),
  orNull(fc.constantFrom(0n, 1n)),
  orNull(fc.date({ noInvalidDate: true, min: new Date(0), max: new Date("9999-12-31") })).map(
    (at) => at?.toISOString() ?? null,
  ),
  orNull(fc.json()),
  orNull(fc.uint8Array()).map((bytes) => (bytes ? Buffer.from(bytes) : null)),
);

describe("rows on their way through JSON", () => {
  it("come back as they were, each value of the same class: whole numbers beyond 2^53, zero below zero, bytes, JSON", () => {
    fc.assert(
      fc.property(hard, (values) => {
        const before = kept(values);
        const line = JSON.stringify(
          Object.fromEntries(COLUMNS.map((type, at) => [type, fromSqlite(type, before[2 * at])])),
        );
        const row = JSON.parse(line) as Record<ColumnType, Value>;
        const after = kept(COLUMNS.map((type) => toSqlite(type, row[type])));
        expect(after).toEqual(before);
        // toEqual takes 0 and -0 for different, as they are here.
        expect(Object.is(after[2], before[2]) || typeof before[2] !== "number").toBe(true);
      }),
      { numRuns: 200 },
    );
  });

  it("stand in CSV as they are, also with quotes, commas and line breaks (RFC 4180)", () => {
    fc.assert(
      fc.property(fc.array(fc.string(), { minLength: 7, maxLength: 7 }), (texts) => {
        const row = Object.fromEntries(COLUMNS.map((type, at) => [type, texts[at] as string]));
        expect(parse(csvHead(TABLE) + csvLine(TABLE, row), { columns: true })).toEqual([row]);
      }),
      { numRuns: 100 },
    );
    const nothing = Object.fromEntries(COLUMNS.map((type) => [type, null]));
    expect(csvLine(TABLE, { ...nothing, text: "" })).toBe(',,"",,,,\r\n');
  });

  it("go in after what they refer to, and a circle is cut", () => {
    const tables = ["a", "b", "c", "d"].map((name) => ({ name }));
    const refers = new Map([
      ["a", new Set(["c"])],
      ["c", new Set(["b", "d"])],
      ["d", new Set(["a", "elsewhere"])],
    ]);
    expect(inOrder(tables, refers).map(({ name }) => name)).toEqual(["b", "d", "c", "a"]);
  });
});
