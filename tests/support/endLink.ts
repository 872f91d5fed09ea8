import { join } from "node:path";
import Database from "better-sqlite3";
import { tokenHash } from "../../lib/db/token";
import { E2E } from "./e2eServer";

/** Moves the last moment of a customer's link into the past, as waiting for days would. */
export function endLink(slug: string, token: string): void {
  const directory = new Database(join(E2E.data, "directory.sqlite"), { readonly: true });
  const { database } = directory.prepare(`SELECT "database" FROM "Shop" WHERE "slug" = ?`).get(slug) as {
    database: string;
  };
  directory.close();
  const shop = new Database(join(E2E.data, "shops", `${database}.sqlite`), { timeout: 5000 });
  const { changes } = shop
    .prepare(`UPDATE "CustomerLink" SET "expiresAt" = "createdAt" WHERE "tokenHash" = ?`)
    .run(tokenHash(token));
  shop.close();
  if (changes !== 1) throw new Error("There is no such link to end.");
}
