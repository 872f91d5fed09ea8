// What many shops cost one PostgreSQL server: tsx tests/support/postgresRun.ts -- tsx tests/bench/shops/schemas.ts [shops]
import { rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { closePool } from "@/lib/db/pools";
import { inPostgres } from "@/lib/db/postgres";
import { createSchema, dropSchema, readySchema } from "@/lib/db/shopSchema";
import { dumpSchema } from "@/lib/server/backup/postgres/dump";

const url = process.env.DATABASE_URL ?? "";
const SHOPS = Number(process.argv[2] ?? 200);
const name = (at: number) => `bench_${String(at).padStart(5, "0")}`;
const mib = (bytes: number) => `${(bytes / 1_048_576).toFixed(1)} MiB`;
const ask = async (sql: string) =>
  Number((await inPostgres(url, (client) => client.query(`SELECT (${sql}) AS n`))).rows[0]?.n);
const median = (all: number[]) => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)] ?? 0;

/** Milliseconds of wall clock that each run took, in order, and of this process's own work for all of them. */
async function timed(count: number, run: (at: number) => Promise<unknown>) {
  const began = process.cpuUsage();
  const each: number[] = [];
  for (let at = 0; at < count; at++) {
    const start = performance.now();
    await run(at);
    each.push(performance.now() - start);
  }
  const { user, system } = process.cpuUsage(began);
  return { each, own: (user + system) / 1_000 / count };
}

const CATALOGUE =
  "SELECT sum(pg_total_relation_size(oid)) FROM pg_class WHERE relnamespace = 'pg_catalog'::regnamespace AND relkind = 'r'";
const OURS = "relnamespace IN (SELECT oid FROM pg_namespace WHERE nspname LIKE 'bench\\_%')";

await readySchema(url);
const before = { catalogue: await ask(CATALOGUE), whole: await ask("pg_database_size(current_database())") };
const made = await timed(SHOPS, (at) => createSchema(url, name(at)));
console.log(`shops                        ${SHOPS}`);
console.log(
  `tables of a shop             ${(await ask(`SELECT count(*) FROM pg_class WHERE relkind = 'r' AND ${OURS}`)) / SHOPS}`,
);
console.log(
  `relations of a shop          ${(await ask(`SELECT count(*) FROM pg_class WHERE ${OURS}`)) / SHOPS}`,
);
console.log(`made, first ten              ${median(made.each.slice(0, 10)).toFixed(0)} ms each (median)`);
console.log(`made, last ten               ${median(made.each.slice(-10)).toFixed(0)} ms each (median)`);
console.log(`made, this process's share   ${made.own.toFixed(1)} ms of CPU each`);
console.log(
  `catalogue                    ${mib(((await ask(CATALOGUE)) - before.catalogue) / SHOPS)} a shop`,
);
console.log(
  `an empty shop on disk        ${mib(((await ask("pg_database_size(current_database())")) - before.whole) / SHOPS)}`,
);

await inPostgres(url, async (client) => {
  const memory = async () =>
    Number((await client.query("SELECT sum(total_bytes) AS n FROM pg_backend_memory_contexts")).rows[0]?.n);
  console.log(`a new connection             ${mib(await memory())}`);
  for (let at = 0; at < SHOPS; at++) {
    for (const table of [
      "Settings",
      "Customer",
      "Bike",
      "Quote",
      "QuoteRevision",
      "Job",
      "Step",
      "Invoice",
      "Payment",
      "Part",
      "Move",
      "Booking",
    ])
      await client.query(`SELECT * FROM "${name(at)}"."${table}" LIMIT 1`);
    if ([1, 10, 50, SHOPS].includes(at + 1))
      console.log(
        `having read ${String(at + 1).padStart(4)} shops       ${mib(await memory())} (12 tables of each)`,
      );
  }
});

const few = Math.min(SHOPS, 10);
const file = join(tmpdir(), `bench-${process.pid}.dump`);
const copied = await timed(few, (at) =>
  inPostgres(url, async (client) => {
    await client.query("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
    const { rows } = await client.query("SELECT pg_export_snapshot() AS name");
    await dumpSchema(url, name(at), rows[0]?.name, file);
  }),
);
rmSync(file, { force: true });
console.log(`copied by pg_dump            ${median(copied.each).toFixed(0)} ms each (median of ${few})`);
const dropped = await timed(few, (at) => dropSchema(url, name(at)));
console.log(`dropped                      ${median(dropped.each).toFixed(0)} ms each (median of ${few})`);
await closePool();
