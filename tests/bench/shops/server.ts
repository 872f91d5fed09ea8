import { randomUUID } from "node:crypto";
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { DEMO_PEOPLE } from "../../../demo/signIns";
import { sessionCookie } from "../../support/session";
import { dataIn, PASSWORD, startBuilt } from "../load/built";

/**
 * A server with a small heap whose shops, each a copy of a demo shop, are visited in random order: npm run bench:server. Prints what
 * it takes of memory meanwhile, and what failed. Figures, no test.
 */
const SHOPS = Number(process.env.BENCH_MANY ?? 300);
const HEAP_MB = Number(process.env.BENCH_HEAP_MB ?? 256);
const VISITS = SHOPS * 3;
const MIB = 2 ** 20;
const port = Number(process.env.LOAD_PORT ?? 3493);
const folder = mkdtempSync(join(tmpdir(), "throttlewright-server-"));
const data = dataIn(folder);

/** Copies a demo shop, with its owner as the owner of each. */
function layShops(): void {
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
  const shop = directory.prepare(
    `INSERT INTO "Shop" ("id", "slug", "name", "database", "createdAt", "level", "lookedAt") VALUES (?, ?, ?, ?, ?, ?, ?)`,
  );
  const member = directory.prepare(
    `INSERT INTO "Membership" ("personId", "shopId", "role", "createdAt") VALUES (?, ?, 'owner', ?)`,
  );
  directory.transaction(() => {
    for (let n = 0; n < SHOPS; n++) {
      const [id, database] = [randomUUID(), `shop_${n.toString(16).padStart(16, "0")}`];
      copyFileSync(file(of.database as string), file(database));
      shop.run(id, `many-${n}`, `Shop ${n}`, database, of.createdAt, of.level, new Date().toISOString());
      member.run(person, id, of.createdAt);
    }
  })();
  directory.close();
}

const pages = ["", "/quotes", "/jobs", "/stock"];

try {
  await (await startBuilt(port, data, 1)).stop();
  layShops();
  const server = await startBuilt(port, data, 1, { NODE_OPTIONS: `--max-old-space-size=${HEAP_MB}` });
  try {
    const cookie = await sessionCookie(server.base, "saltpanOwner", PASSWORD);
    console.log(`${SHOPS} shops, ${VISITS} pages in random order, heap limit ${HEAP_MB} MiB, one process`);
    console.log("visits  resident MiB  longest ms  failed");
    let [peak, longest, failed] = [0, 0, 0];
    for (let n = 0; n <= VISITS; n++) {
      const shop = Math.floor(Math.random() * SHOPS);
      const at = performance.now();
      const answer = await fetch(`${server.base}/s/many-${shop}${pages[n % pages.length]}`, {
        headers: { Cookie: cookie },
        redirect: "manual",
      });
      await answer.arrayBuffer();
      if (answer.status !== 200) failed += 1;
      longest = Math.max(longest, performance.now() - at);
      const resident = server.residentBytes();
      peak = Math.max(peak, resident);
      if (n % (VISITS / 15) === 0)
        console.log(
          `${String(n).padStart(6)}  ${(resident / MIB).toFixed(0).padStart(12)}  ${longest.toFixed(0).padStart(10)}  ${String(failed).padStart(6)}`,
        );
    }
    console.log(`most resident ${(peak / MIB).toFixed(0)} MiB; ${failed} of ${VISITS + 1} failed`);
  } finally {
    await server.stop();
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
