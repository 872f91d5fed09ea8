import Database from "better-sqlite3";
import { expect, it } from "vitest";
import { clean } from "@/lib/db/cli/newMigration";

it("a JSON column's default is a text in a migration for SQLite, which takes no other", () => {
  const bare = [
    'ALTER TABLE "Step" ADD COLUMN "makes" JSONB NOT NULL DEFAULT [];',
    `CREATE TABLE "Told" ("id" INTEGER NOT NULL PRIMARY KEY,\n    "detail" JSONB NOT NULL DEFAULT {"who": "it's, us"},\n    "plain" TEXT NOT NULL DEFAULT ''\n);`,
    `ALTER TABLE "Step" ADD COLUMN "other" JSONB DEFAULT '[]';`,
  ].join("\n");
  const steps = () => {
    const file = new Database(":memory:");
    file.exec('CREATE TABLE "Step" ("id" INTEGER NOT NULL PRIMARY KEY)');
    return file;
  };
  expect(() => steps().exec(bare)).toThrow();
  const file = steps();
  file.exec(clean(bare));
  file.exec('INSERT INTO "Step" ("id") VALUES (1); INSERT INTO "Told" ("id") VALUES (1)');
  expect(file.prepare('SELECT "makes", "other" FROM "Step"').get()).toEqual({ makes: "[]", other: "[]" });
  expect(file.prepare('SELECT "detail", "plain" FROM "Told"').get()).toEqual({
    detail: `{"who": "it's, us"}`,
    plain: "",
  });
  file.close();
});
