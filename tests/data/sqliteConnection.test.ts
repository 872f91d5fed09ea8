import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { planned, SqliteConnection } from "@/lib/db/sqliteConnection";

let file: Database.Database;
let prepared: string[];
beforeEach(() => {
  file = new Database(":memory:");
  file.exec(`CREATE TABLE "Bay" (id INTEGER PRIMARY KEY, name TEXT, bikes INTEGER)`);
  file.exec(`INSERT INTO "Bay" (name, bikes) VALUES ('left', 1), ('= ?', 2), ('right', 2)`);
  prepared = [];
  const prepare = Database.prototype.prepare;
  vi.spyOn(Database.prototype, "prepare").mockImplementation(function (this: Database.Database, sql) {
    prepared.push(sql);
    return prepare.call(this, sql);
  });
});
afterEach(() => {
  vi.restoreAllMocks();
  file.close();
});

const rows = (connection: SqliteConnection, sql: string, values: unknown[] = []) => {
  const bound = connection.prepare(sql).bind(values);
  if (!("raw" in bound)) throw new Error("No question.");
  return bound.raw().all();
};
const long = (letters: number) => `SELECT '${"x".repeat(letters)}'`;

describe("a connection of SQLite", () => {
  it("hides from plans the values that rows are compared and counted with, and answers the same", () => {
    expect(planned("SELECT 1 FROM t WHERE a = ? AND b IS ? AND c < ? LIMIT ? OFFSET ?")).toBe(
      "SELECT 1 FROM t WHERE a = +? AND b IS +? AND c < ? LIMIT +? OFFSET +?",
    );
    const connection = new SqliteConnection(file, false);
    const sql = `SELECT name FROM "Bay" WHERE bikes = ? AND name <> ? ORDER BY id LIMIT ? OFFSET ?`;
    expect(rows(connection, sql, [2, "left", 5, 0])).toEqual([["= ?"], ["right"]]);
    expect(rows(connection, sql, ["2", "left", 1, 1])).toEqual([["right"]]);
    expect(rows(connection, sql, [null, "left", 5, 0])).toEqual([]);
  });

  it("leaves alone what stands in quotes", () => {
    const connection = new SqliteConnection(file, false);
    const sql = `SELECT id, 'limit ?' AS "is ?" FROM "Bay" WHERE name = '= ?'`;
    expect(rows(connection, sql)).toEqual([[2, "limit ?"]]);
    expect(planned(sql)).toBe(sql);
    expect(planned("SELECT 'it''s = ?', `= ?` WHERE 1 = ?")).toBe("SELECT 'it''s = ?', `= ?` WHERE 1 = +?");
  });

  it("keeps a page's long question prepared, but not an import's long write", () => {
    const [reads, writes] = [new SqliteConnection(file, false), new SqliteConnection(file, true)];
    const question = long(9_000);
    for (const connection of [reads, reads, reads]) rows(connection, question);
    expect(prepared).toEqual([question]);
    for (const connection of [writes, writes]) rows(connection, question);
    expect(prepared).toEqual([question, question, question]);
  });

  it("keeps no more text than is set, that which was asked longest ago given up first", () => {
    const connection = new SqliteConnection(file, false);
    const questions = Array.from({ length: 10 }, (_, n) => `${long(15_000)} AS "n${n}"`);
    for (const question of questions) rows(connection, question);
    prepared = [];
    rows(connection, questions.at(-1) as string);
    expect(prepared).toEqual([]);
    rows(connection, questions[0] as string);
    expect(prepared).toEqual([questions[0]]);
  });

  it("keeps a hundred questions prepared, and no statement twice", () => {
    const connection = new SqliteConnection(file, false);
    const asked = (n: number) => rows(connection, `SELECT ${n}`);
    for (let turn = 0; turn < 2; turn++) for (let n = 0; n < 100; n++) asked(n);
    expect(prepared).toHaveLength(100);
    asked(100);
    asked(0);
    expect(prepared).toHaveLength(102);
  });
});
