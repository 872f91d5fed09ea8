import Database from "better-sqlite3";
import { shopFile } from "@/lib/db/shop";
import { searchKey } from "@/lib/domain/searchKey";

/** Sizes of a jet family: 60 to 157.5 by 2.5. */
const SIZES = 40;

/** Adds `count` parts with a supplier's code each; the first fifth, at most 1 600, are jets of forty sizes in families. */
export function seedParts(database: string, count: number): void {
  const db = new Database(shopFile(database));
  const at = "2026-11-25T00:30:00.000+00:00";
  const jets = Math.min(1_600, Math.floor(count / 5));
  db.transaction(() => {
    const { lastInsertRowid: supplierId } = db
      .prepare(`INSERT INTO "Supplier" (name, searchKey, createdAt) VALUES ('Ridge Brass', 'ridge brass', ?)`)
      .run(at);
    const part = db.prepare(
      `INSERT INTO "Part" (code, name, kind, family, sizeMilli, convention, bin, pointMilli, onHandMilli, searchKey, createdAt) VALUES (?, ?, ?, ?, ?, ?, ?, 2000, 4000, ?, ?)`,
    );
    const offer = db.prepare(
      `INSERT INTO "PartSupplier" (partId, supplierId, code, codeKey, usual) VALUES (?, ?, ?, ?, 1)`,
    );
    for (let n = 1; n <= count; n++) {
      const jet = n <= jets;
      const size = 60 + (n % SIZES) * 2.5;
      const family = jet ? `HX${Math.floor(n / SIZES)}` : "";
      const code = jet ? `${family}-${size * 10}` : `RM-${n}`;
      const name = jet ? `Main jet ${size}` : `Rubber mount ${n}`;
      const kind = jet ? "jet" : "other";
      const bin = `B${n % 97}`;
      const key = searchKey(code, name, kind, family, bin);
      const sizeMilli = jet ? size * 1000 : null;
      const made = part.run(code, name, kind, family, sizeMilli, jet ? "bore" : "", bin, key, at);
      offer.run(made.lastInsertRowid, supplierId, `RB/${n}-X`, `rb/${n}-x`);
    }
  })();
  db.close();
}
