// Runs a command against a private PostgreSQL server and stops the server afterwards.
// Without a command: the data tests, those of them that are named, or with --short those that matter most, in under a minute.
// `tsx tests/support/postgresRun.ts -- npm run migrate` runs that instead. With --pooled first, requests reach the server through
// PgBouncer in transaction mode; with --few-locks the server has a sixth of a stock one's locks; with --plain-role they come as a role that
// may make databases and schemas, and no extension.
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { startPgBouncer } from "./pgbouncer";
import { plainRole } from "./plainRole";
import { NoServer, type PrivateServer, startPostgres } from "./postgres";

const root = fileURLToPath(new URL("../..", import.meta.url));
const words = process.argv.slice(2);
const pooled = words[0] === "--pooled";
const few = words[0] === "--few-locks";
const plain = words[0] === "--plain-role";
const given = pooled || few || plain ? words.slice(1) : words;
const own = given.indexOf("--");

/** Writing, isolation of shops, conflicts between processes, triggers of ledgers, searching, and how schemas are made. */
const SHORT = ["postgres", "shopSchema", "search", "ledger", "race"].map(
  (name) => `tests/data/${name}.test.ts`,
);

function dataTests(words: readonly string[]): string[] {
  const files = words.includes("--short") ? SHORT : words.length ? words : ["tests/data/"];
  return ["vitest", "run", "--config", "tests/vitest.config.ts", ...files];
}

const [program, ...args] = own === -1 ? dataTests(given) : given.slice(own + 1);

async function start(): Promise<readonly PrivateServer[]> {
  const started: PrivateServer[] = [];
  try {
    started.push(await startPostgres(few ? ["max_locks_per_transaction=10"] : []));
    if (pooled) started.push(await startPgBouncer(started[0] as PrivateServer));
    return started;
  } catch (cause) {
    for (const one of started.reverse()) one.stop();
    if (!(cause instanceof NoServer)) throw cause;
    console.log(`SKIPPED: the PostgreSQL tests did not run. ${cause.message}`);
    return [];
  }
}

const [server, pooler] = await start();
if (server) {
  const url = plain ? await plainRole(server.url) : server.url;
  const addresses = pooler
    ? { DATABASE_URL: pooler.url, DIRECT_DATABASE_URL: server.url }
    : { DATABASE_URL: url };
  const child = spawn(program as string, args, {
    cwd: root,
    env: { ...process.env, ...addresses },
    stdio: "inherit",
    // A group of its own, so that a signal reaches what npm started too; this process stays to stop the server.
    detached: true,
  });
  for (const signal of ["SIGINT", "SIGTERM"] as const)
    process.on(signal, () => child.pid && process.kill(-child.pid, signal));
  process.exitCode = await new Promise<number>((done) => {
    child.on("error", (cause) => {
      console.error(`${program} could not be started: ${cause.message}`);
      done(1);
    });
    child.on("close", (code) => done(code ?? 1));
  });
  // npm ends before what it started: the database goes last.
  for (let turn = 0; turn < 60 && lives(child.pid); turn++)
    await new Promise((resume) => setTimeout(resume, 250));
  pooler?.stop();
  server.stop();
}

/** Whether any process of the group is left. */
function lives(group: number | undefined): boolean {
  try {
    return group !== undefined && process.kill(-group, 0);
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === "ESRCH") return false;
    throw cause;
  }
}
