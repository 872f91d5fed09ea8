import { randomUUID } from "node:crypto";
import { copyFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { DEMO_PEOPLE } from "../../../demo/signIns";

/** Adds `count` shops to stopped demo data, each a copy of a demo shop with the same owner. Answers their names. */
export function layCopies(data: string, count: number): string[] {
  const directory = new Database(join(data, "directory.sqlite"));
  const of = directory.prepare(`SELECT * FROM "Shop" WHERE "slug" = 'saltpan'`).get() as Record<
    string,
    string
  >;
  const person = directory
    .prepare(`SELECT "id" FROM "Person" WHERE "email" = ?`)
    .pluck()
    .get(DEMO_PEOPLE.saltpanOwner.email);
  const file = (database: string) => join(data, "shops", `${database}.sqlite`);
  const whole = new Database(file(of.database as string));
  whole.pragma("wal_checkpoint(TRUNCATE)");
  whole.close();
  const there = directory.prepare(`SELECT 1 FROM "Shop" WHERE "slug" = ?`).pluck();
  const shop = directory.prepare(
    `INSERT INTO "Shop" ("id", "slug", "name", "database", "createdAt", "level", "lookedAt") VALUES (?, ?, ?, ?, ?, ?, ?)`,
  );
  const member = directory.prepare(
    `INSERT INTO "Membership" ("personId", "shopId", "role", "createdAt") VALUES (?, ?, 'owner', ?)`,
  );
  const names = Array.from({ length: count }, (_, n) => `many-${n}`);
  directory.transaction(() => {
    for (const [n, name] of names.entries()) {
      if (there.get(name)) continue;
      const [id, database] = [randomUUID(), `shop_${n.toString(16).padStart(16, "0")}`];
      copyFileSync(file(of.database as string), file(database));
      shop.run(id, name, `Shop ${n}`, database, of.createdAt, of.level, new Date().toISOString());
      member.run(person, id, of.createdAt);
    }
  })();
  directory.close();
  return names;
}
