import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { describe, expect, it } from "vitest";

const FOLDER = "prisma/migrations/shop/sqlite";
const names = readdirSync(FOLDER)
  .filter((name) => /^\d{4}_/.test(name))
  .sort();
const run = (db: Database.Database, of: (name: string) => boolean) => {
  for (const name of names.filter(of)) db.exec(readFileSync(join(FOLDER, name, "migration.sql"), "utf8"));
};

/** A shop from before parts were sold over the counter: one job with its booking, invoice, credit note and payments. */
function shopOfBefore(): Database.Database {
  const db = new Database(":memory:");
  run(db, (name) => name < "0035");
  db.pragma("foreign_keys = OFF");
  db.exec(`
    INSERT INTO "Customer" ("id", "name", "searchKey", "createdAt") VALUES (1, 'Oda Fenn', 'oda fenn', 0);
    INSERT INTO "Job" ("id", "number", "customerId", "bikeId", "revisionId", "title", "minutes", "searchKey", "createdAt")
      VALUES (1, 601, 1, 1, 1, 'Jets', 60, 'job', 0);
    INSERT INTO "Booking" ("id", "jobId", "bayId", "staffId", "startsAt", "endsAt", "note") VALUES (1, 1, 1, 1, 10, 20, 'early');
    INSERT INTO "Invoice" ("id", "kind", "number", "state", "jobId", "customerId", "frozen", "grossMinor", "searchKey", "createdAt")
      VALUES (1, 'invoice', 2001, 'issued', 1, 1, '{"number":2001}', 500, '2001 oda fenn', 0);
    INSERT INTO "Invoice" ("id", "kind", "number", "state", "jobId", "customerId", "creditsId", "grossMinor", "searchKey", "createdAt")
      VALUES (2, 'creditNote', 301, 'issued', 1, 1, 1, -500, '301 oda fenn', 0);
    INSERT INTO "Payment" ("id", "kind", "jobId", "invoiceId", "method", "amountMinor", "paidOn", "at")
      VALUES (1, 'payment', 1, 1, 'card', 500, '2026-11-25', 0);
  `);
  return db;
}

describe("tables that were rebuilt for sales and bookings without a job", () => {
  it("keep every row, every guard and the search", () => {
    const db = shopOfBefore();
    run(db, (name) => name >= "0035");
    expect(
      db
        .prepare('SELECT "id", "kind", "number", "jobId", "saleId", "creditsId", "frozen" FROM "Invoice"')
        .all(),
    ).toEqual([
      {
        id: 1,
        kind: "invoice",
        number: 2001,
        jobId: 1,
        saleId: null,
        creditsId: null,
        frozen: '{"number":2001}',
      },
      { id: 2, kind: "creditNote", number: 301, jobId: 1, saleId: null, creditsId: 1, frozen: null },
    ]);
    expect(db.prepare('SELECT "jobId", "invoiceId", "amountMinor" FROM "Payment"').all()).toEqual([
      { jobId: 1, invoiceId: 1, amountMinor: 500 },
    ]);
    expect(db.prepare('SELECT "jobId", "note", "words" FROM "Booking"').all()).toEqual([
      { jobId: 1, note: "early", words: "" },
    ]);
    const refused = (sql: string) => expect(() => db.exec(sql), sql).toThrow();
    refused(`UPDATE "Invoice" SET "grossMinor" = 1 WHERE "id" = 1`);
    refused(`UPDATE "Invoice" SET "saleId" = 1 WHERE "id" = 1`);
    refused(`DELETE FROM "Invoice" WHERE "id" = 1`);
    refused(`UPDATE "Payment" SET "amountMinor" = 1`);
    refused(`DELETE FROM "Payment"`);
    refused(`UPDATE "Invoice" SET "kind" = 'slip'`);
    refused(`UPDATE "Booking" SET "state" = 'lost'`);
    refused(`UPDATE "Booking" SET "jobId" = NULL`);
    db.exec(`UPDATE "Invoice" SET "paidMinor" = 500 WHERE "id" = 1`);
    const found = () =>
      db.prepare(`SELECT rowid FROM "InvoiceSearch" WHERE "words" MATCH '"301"'`).all() as {
        rowid: number;
      }[];
    expect(found()).toEqual([{ rowid: -2 }]);
    db.exec(`
      INSERT INTO "Sale" ("id", "soldAt") VALUES (1, 0);
      INSERT INTO "Invoice" ("id", "kind", "number", "state", "saleId", "searchKey", "createdAt")
        VALUES (3, 'receipt', 501, 'issued', 1, '501 walk-in 301', 0);
    `);
    expect(
      found()
        .map((row) => row.rowid)
        .sort(),
    ).toEqual([-2, -3]);
    db.close();
  });
});
