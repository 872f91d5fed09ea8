import Database from "better-sqlite3";
import { describe, expect, it } from "vitest";
import { migrations } from "@/lib/db/migrations";

const AT = "2026-11-25T00:30:00.000+00:00";

/** A shop's database as it was before quotes listed works, with a draft and an accepted quote of a package. */
function before(): InstanceType<typeof Database> {
  const db = new Database(":memory:");
  for (const { sql } of migrations("shop", "sqlite").filter((one) => one.name < "0031")) db.exec(sql);
  db.pragma("foreign_keys = ON");
  db.exec(`
    INSERT INTO "ModelCard" (id, make, model, displacementCc, carburettorType, searchKey, createdAt) VALUES (1, 'Tarrant', 'Drover 580', 578, 'constant vacuum', 'x', '${AT}');
    INSERT INTO "Customer" (id, name, searchKey, createdAt) VALUES (1, 'Oda Fenn', 'oda', '${AT}');
    INSERT INTO "Bike" (id, customerId, modelCardId, searchKey, createdAt) VALUES (1, 1, 1, 'x', '${AT}');
    INSERT INTO "Package" (id, code, name) VALUES (1, 'P', 'Jets');
    INSERT INTO "PackageRevision" (id, packageId, number, state, recipe, createdAt) VALUES (7, 1, 1, 'published', '{}', '${AT}');
    INSERT INTO "Quote" (id, number, customerId, bikeId, title, state, validUntil, searchKey, createdAt) VALUES (1, 1001, 1, 1, 'Jets', 'accepted', '2026-12-24', 'x', '${AT}'), (2, 1002, 1, 1, 'Jets', 'draft', '2026-12-24', 'x', '${AT}');
    INSERT INTO "QuoteRevision" (id, quoteId, number, packageRevisionId, choices, conditions, frozen, hash, frozenAt, grossMinor, createdAt) VALUES (11, 1, 1, 7, '["main"]', '{}', '{"a":1}', 'h', '${AT}', 4200, '${AT}');
    INSERT INTO "QuoteRevision" (id, quoteId, number, packageRevisionId, choices, conditions, createdAt) VALUES (12, 2, 1, 7, '[]', '{}', '${AT}');
    INSERT INTO "Acceptance" (id, revisionId, typedName, acknowledgements, shownHash, at) VALUES (1, 11, 'Oda Fenn', '[]', 'h', '${AT}');
    INSERT INTO "Job" (id, number, customerId, bikeId, revisionId, title, minutes, searchKey, createdAt) VALUES (1, 601, 1, 1, 11, 'Jets', 60, 'x', '${AT}');
  `);
  return db;
}

describe("the migration to lists of works", () => {
  it("makes one work of each revision's package and loses nothing that hangs on a revision", () => {
    const db = before();
    const mine = migrations("shop", "sqlite").find((one) => one.name === "0031_works");
    db.exec(mine?.sql ?? "");
    expect(
      db.prepare(`SELECT "revisionId", "key", "kind", "packageRevisionId" FROM "QuoteWork"`).all(),
    ).toEqual([
      { revisionId: 11, key: "", kind: "package", packageRevisionId: 7 },
      { revisionId: 12, key: "", kind: "package", packageRevisionId: 7 },
    ]);
    expect(
      db.prepare(`SELECT "choices", "frozen", "hash", "grossMinor" FROM "QuoteRevision" WHERE id = 11`).get(),
    ).toEqual({
      choices: '["main"]',
      frozen: '{"a":1}',
      hash: "h",
      grossMinor: 4200,
    });
    expect(db.pragma("foreign_key_check")).toEqual([]);
    expect(db.pragma("foreign_keys", { simple: true })).toBe(1);
    expect(
      db
        .prepare(`SELECT COUNT(*) AS n FROM "Acceptance" JOIN "QuoteRevision" r ON r.id = "revisionId"`)
        .get(),
    ).toEqual({ n: 1 });
    for (const sql of [
      `UPDATE "QuoteRevision" SET "hash" = 'x' WHERE id = 11`,
      `UPDATE "QuoteWork" SET "key" = 'x' WHERE "revisionId" = 11`,
      `DELETE FROM "QuoteWork" WHERE "revisionId" = 11`,
    ])
      expect(() => db.exec(sql)).toThrow("A frozen revision never changes");
    expect(() => db.exec(`DELETE FROM "PackageRevision" WHERE id = 7`)).toThrow(/constraint/i);
    db.exec(`DELETE FROM "QuoteWork" WHERE "revisionId" = 12`);
    db.close();
  });
});
