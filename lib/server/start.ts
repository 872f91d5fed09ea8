import { readSettingsFile, tellLibraries } from "@/lib/configuration/configuration";
import { generateClients } from "@/lib/db/cli/generate";
import { dataFolder, postgresUrl, projectRoot } from "@/lib/db/folders";
import { holdDataFolder, takeDataFolderAlone } from "@/lib/db/inUse";
import { holdDatabase } from "@/lib/db/inUsePostgres";
import { Refusal } from "@/lib/domain/refusal";
import { actionKey } from "@/lib/gate/secret";
import { complain, say } from "@/lib/log/say";
import { backupPlan } from "./backup/plan";
import { ensureBuild } from "./build";
import { beginLogs } from "./logging";
import { demandDataFolder, demandPort, phase, takeSecret } from "./phases";
import { makePrivate, writePrivately } from "./privacy";
import { thisMachine, usualProcesses } from "./processes/count";
import { carryOut, unfinishedRestore } from "./restore/exchange";

const dev = process.argv.includes("--dev");

async function start(): Promise<void> {
  const { PORT: port, HOST: host, DEMO, WEB_PROCESSES } = readSettingsFile(projectRoot);
  tellLibraries({ NEXT_TELEMETRY_DISABLED: "1", NODE_ENV: dev ? "development" : "production" });
  say("Throttlewright is starting.");
  const backups = backupPlan();
  const usual = writePrivately();
  demandDataFolder();
  await demandPort(port, host);
  takeSecret();
  tellLibraries({ NEXT_SERVER_ACTIONS_ENCRYPTION_KEY: actionKey() });
  finishRestore();
  const url = postgresUrl();
  const inUse = url ? await holdDatabase(url) : holdDataFolder();
  makePrivate();
  await phase("Database clients", () => (generateClients() ? "made" : "current"));

  // Loaded only now: they need the generated clients.
  const { checkShops } = await import("@/lib/db/migrate");
  const { shopFaults } = await import("@/lib/db/shopFaults");
  const { shopTemplate } = await import("@/lib/db/template");
  const { readySchema } = await import("@/lib/db/shopSchema");
  await phase("Databases", async () => {
    const lines: string[] = [];
    const waiting = await checkShops((line) => lines.push(line));
    const done = lines.length ? `brought up to date: ${lines.join("; ")}` : "up to date";
    return waiting
      ? `${done}; ${waiting} shops follow as they are first opened (npm run migrate does all)`
      : done;
  });
  const { publicUrl } = await import("@/lib/gate/origin");
  tellLibraries({ NEXTAUTH_URL: publicUrl().origin });
  // The demo shops are made on one core while the build takes the other.
  const building = dev ? undefined : ensureBuild(usual);
  building?.catch(() => undefined);
  const signIns = DEMO ? await demo() : [];
  // Made now, or the first sign-up would wait for it and everyone else with it.
  await (url ? readySchema(url) : shopTemplate());
  if (building) await phase("Production build", () => building);
  const { startPeopleMail } = await import("./peopleMail");
  const { startRounds } = await import("./rounds");
  const { startBackups } = await import("./backup/schedule");
  const processes = dev ? 1 : (WEB_PROCESSES ?? usualProcesses(thisMachine()));
  await phase("Web server", async () => {
    if (processes === 1) return serveHere({ port, host, dev });
    const { serveByWorkers } = await import("./processes/serveByWorkers");
    await serveByWorkers(processes, failed);
    return `${processes} processes`;
  });
  await beginLogs(dev);
  process.once("exit", () => void inUse.release());
  startPeopleMail();
  startRounds();
  startBackups(backups);
  say(
    [
      "",
      `  Throttlewright  ${publicUrl().origin}`,
      ...signIns.map((line) => `  ${line}`),
      `  Data lives in   ${postgresUrl() ? "PostgreSQL (DATABASE_URL)" : dataFolder()}`,
      ...(backups.on ? [`  Backups go to   ${backups.folder}, daily at ${backups.at}`] : []),
      ...shopFaults().map(({ slug, place, reason }) => `  CANNOT BE OPENED  ${slug}: ${place}. ${reason}`),
      "  Stop with Ctrl+C.",
      "",
    ].join("\n"),
  );
}

/** One process does everything. */
async function serveHere(options: { port: number; host: string; dev: boolean }): Promise<void> {
  const { serve } = await import("./serve");
  await serve(options);
}

/** A restore that was cut off between two of its moves is carried to its end before anything is opened. */
function finishRestore(): void {
  if (postgresUrl() || !unfinishedRestore()) return;
  const alone = takeDataFolderAlone();
  try {
    const plan = unfinishedRestore();
    if (!plan) return;
    carryOut(plan);
    say(`  A restore that had been cut off is finished. What it replaced is in ${plan.replaced}.`);
  } finally {
    alone.release();
  }
}

/** The two demo shops are built on the first run, when nobody has signed up. */
async function demo(): Promise<string[]> {
  const { makeDemo, wantsDemo } = await import("./demoShops");
  const { buildDemo, demoSignIns } = await import("@/demo/build");
  const { DEMO_EMAILS } = await import("@/demo/signIns");
  if (await wantsDemo())
    await phase("Demo shops", () => makeDemo(buildDemo, new Date(), DEMO_EMAILS).then(() => "built"));
  return demoSignIns();
}

function failed(cause: unknown): never {
  if (!(cause instanceof Refusal)) throw cause;
  complain(`\n${cause.message}\n${cause.remedy}`);
  process.exit(1);
}

try {
  await start();
} catch (cause) {
  failed(cause);
}
