import { existsSync } from "node:fs";
import Database from "better-sqlite3";
import type pg from "pg";
import { hasTables } from "@/lib/db/shopFaults";
import { say } from "@/lib/log/say";

/**
 * Carries over to a directory that is about to be put back who was erased since its copy was made: the rounds then erase them again. One
 * that cannot be read any more is told of.
 */
export function carryErased(from: string, to: string): void {
  if (!existsSync(from)) return;
  const raw = new Database(to);
  try {
    raw.prepare("ATTACH ? AS old").run(from);
    if (!raw.prepare(`SELECT 1 FROM old.sqlite_master WHERE name = 'ErasedCustomer'`).get()) return;
    raw.exec(
      `INSERT OR IGNORE INTO "ErasedCustomer" SELECT * FROM old."ErasedCustomer" WHERE "shopId" IN (SELECT "id" FROM main."Shop")`,
    );
  } catch (cause) {
    say(
      `Who was erased since this copy was made could not be read: erase them again. ${(cause as Error).message}`,
    );
  } finally {
    raw.close();
  }
}

/** The same between two schemas. */
export async function carryErasedRows(client: pg.Client, from: string, to: string): Promise<void> {
  if (!(await hasTables(client, from))) return;
  const { rows } = await client.query(`SELECT to_regclass($1) AS "there"`, [`"${from}"."ErasedCustomer"`]);
  if (rows[0]?.there === null) return;
  await client.query(
    `INSERT INTO "${to}"."ErasedCustomer" SELECT * FROM "${from}"."ErasedCustomer"
     WHERE "shopId" IN (SELECT "id" FROM "${to}"."Shop") ON CONFLICT DO NOTHING`,
  );
}
