// Runs a command against a private PostgreSQL server and stops the server afterwards.
// Without a command: the data-layer tests. `tsx tests/support/postgresRun.ts -- npm run migrate` runs that instead.
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { NoServer, type PrivateServer, startPostgres } from "./postgres";

const root = fileURLToPath(new URL("../..", import.meta.url));
const given = process.argv.slice(2);
const own = given.indexOf("--");
const filters = own === -1 && given.length ? given : ["tests/data/"];
const [program, ...args] =
  own === -1 ? ["vitest", "run", "--config", "tests/vitest.config.ts", ...filters] : given.slice(own + 1);

async function start(): Promise<PrivateServer | undefined> {
  try {
    return await startPostgres();
  } catch (cause) {
    if (!(cause instanceof NoServer)) throw cause;
    console.log(`SKIPPED: the PostgreSQL tests did not run. ${cause.message}`);
    return undefined;
  }
}

const server = await start();
if (server) {
  const child = spawn(program as string, args, {
    cwd: root,
    env: { ...process.env, DATABASE_URL: server.url },
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
