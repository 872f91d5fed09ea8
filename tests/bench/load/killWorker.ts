import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { dataIn, PASSWORD, startBuilt } from "./built";
import { act, get, type Site, signIn } from "./site";

/**
 * Kills one of two workers under a load of writes: npm run bench:kill -- [--seconds 15]. Looks afterwards for every write that
 * was acknowledged, in the shops' own files, and ends with 1 where one is missing or stands there twice.
 */
const at = process.argv.indexOf("--seconds");
const seconds = Math.min(120, Math.max(6, Number(at < 0 ? 15 : process.argv[at + 1]) || 15));
const port = Number(process.env.LOAD_PORT ?? 3493);
const folder = mkdtempSync(join(tmpdir(), "throttlewright-kill-"));
const AT_ONCE = 4;
const run = Date.now().toString(36);

const acknowledged = new Map<string, string[]>();
const failures: Record<string, number> = {};

async function write(site: Site, until: number, name: string): Promise<void> {
  for (let turn = 0; performance.now() < until; turn++) {
    const said = `${name} ${turn}`;
    try {
      const { status, text } = await act(site, "customers/actions.ts", "saveCustomer", [
        ["_shop", site.shop],
        ["name", said],
      ]);
      // A refusal is an answer too; what was done leads on to the new record.
      if (status < 400 && !text.includes('"ok":false')) acknowledged.get(site.shop)?.push(said);
      else failures[String(status)] = (failures[String(status)] ?? 0) + 1;
    } catch (cause) {
      const { name: kind } = cause as Error;
      failures[kind] = (failures[kind] ?? 0) + 1;
    }
  }
}

const server = await startBuilt(port, dataIn(folder), 2);
let missing = 0;
try {
  const sites = [
    await signIn(server.base, "saltpanOwner", PASSWORD),
    await signIn(server.base, "fjellrevOwner", PASSWORD),
  ];
  for (const { shop } of sites) acknowledged.set(shop, []);
  const until = performance.now() + seconds * 1000;
  const load = sites.flatMap((site) =>
    Array.from({ length: AT_ONCE }, (_, n) => write(site, until, `Kept ${run} ${n}`)),
  );
  await new Promise((resume) => setTimeout(resume, (seconds * 1000) / 3));
  const before = server.serving();
  const victim = before[0] as number;
  const atKill = [...acknowledged.values()].flat().length;
  process.kill(victim, "SIGKILL");
  await Promise.all(load);
  const [first] = sites;
  const after = server.serving();
  const well = first ? (await get(first, `/s/${first.shop}`)).status : 0;
  for (const [shop, names] of acknowledged) {
    const file = new Database(join(server.data, "shops", `${databaseOf(shop)}.sqlite`), { readonly: true });
    const found = file
      .prepare(`SELECT "name", count(*) AS "times" FROM "Customer" GROUP BY "name"`)
      .all() as {
      name: string;
      times: number;
    }[];
    const times = new Map(found.map((row) => [row.name, row.times]));
    const wrong = names.filter((name) => times.get(name) !== 1);
    missing += wrong.length;
    console.log(`${shop}: ${names.length} writes acknowledged, ${wrong.length} of them missing or doubled`);
    file.close();
  }
  const all = [...acknowledged.values()].flat().length;
  console.log(
    `worker ${victim} killed after ${atKill} writes, ${all - atKill} more were acknowledged; failed requests: ${JSON.stringify(failures)}`,
  );
  console.log(`workers before ${before.join(", ")}, after ${after.join(", ")}; a page answers ${well}`);
  if (all === atKill || well !== 200 || after.includes(victim)) missing += 1;
} finally {
  await server.stop();
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = missing ? 1 : 0;

function databaseOf(shop: string): string {
  const directory = new Database(join(server.data, "directory.sqlite"), { readonly: true });
  const row = directory.prepare(`SELECT "database" FROM "Shop" WHERE "slug" = ?`).get(shop) as {
    database: string;
  };
  directory.close();
  return row.database;
}
