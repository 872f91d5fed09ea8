import { join } from "node:path";
import { readSettingsFile, tellLibraries } from "@/lib/configuration/configuration";
import { generateClients } from "@/lib/db/cli/generate";
import { postgresUrl, projectRoot } from "@/lib/db/folders";
import { holdDataFolder, takeDataFolderAlone } from "@/lib/db/inUse";
import { holdDatabase } from "@/lib/db/inUsePostgres";
import { serverFault } from "@/lib/db/serverFaults";
import { demandAddress, newShopsOn } from "@/lib/db/servers";
import type { ShopFault } from "@/lib/db/shopFaults";
import { say } from "@/lib/log/say";
import { ensureBuild } from "./build";
import { compiledFolder } from "./compile";
import { demandDataFolder, demandPort, phase, takeSecret } from "./phases";
import { makePrivate, writePrivately } from "./privacy";
import { carryOut, unfinishedRestore } from "./restore/exchange";
import { tellNext } from "./tellNext";

/** What the start has found out before it serves. */
export interface Prepared {
  /** The demo people who can sign in, as lines to be printed. */
  readonly signIns: readonly string[];
  readonly faults: readonly ShopFault[];
  /** The folder of the compiled server; only `npm run dev` runs from source. */
  readonly compiled: string;
}

/** Makes all that has to be there before a server serves: secret, database clients, databases, demo shops, in production the build. */
export async function prepare(dev: boolean): Promise<Prepared> {
  const { PORT: port, HOST: host, DEMO, NEXT_DIST } = readSettingsFile(projectRoot);
  tellLibraries({ NODE_ENV: dev ? "development" : "production" });
  say("Throttlewright is starting.");
  const usual = writePrivately();
  demandDataFolder();
  await demandPort(port, host);
  takeSecret();
  tellNext();
  finishRestore();
  const url = postgresUrl();
  const inUse = url ? await holdDatabase(url) : holdDataFolder();
  try {
    makePrivate();
    await phase("Database clients", () => (generateClients() ? "made" : "current"));

    // Loaded only now: they need the generated clients.
    const { checkShops } = await import("@/lib/db/migrate");
    const { shopFaults } = await import("@/lib/db/shopFaults");
    const { shopTemplate } = await import("@/lib/db/template");
    await phase("Databases", async () => {
      const lines: string[] = [];
      const waiting = await checkShops((line) => lines.push(line));
      const done = lines.length ? `brought up to date: ${lines.join("; ")}` : "up to date";
      return waiting
        ? `${done}; ${waiting} shops follow as they are first opened (npm run migrate does all)`
        : done;
    });
    // The demo shops are made on one core while the build takes the other.
    const building = dev ? undefined : ensureBuild(usual);
    building?.catch(() => undefined);
    const signIns = DEMO ? await demo() : [];
    // Made now, or the first sign-up would wait for it and everyone else with it.
    await (url ? readyForShops() : shopTemplate());
    if (building) await phase("Production build", () => building);
    return { signIns, faults: shopFaults(), compiled: compiledFolder(join(projectRoot, NEXT_DIST)) };
  } finally {
    await inUse.release();
  }
}

/** Where new shops go; a server that does not answer keeps nobody from those of the others. */
async function readyForShops(): Promise<void> {
  const { readySchema } = await import("@/lib/db/shopSchema");
  const server = newShopsOn();
  if (!(await serverFault(server))) await readySchema(demandAddress(server).direct);
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
    await phase("Demo shops", async () => {
      const away = await serverFault(newShopsOn());
      if (away) return `left for a later start: the database server ${newShopsOn()} cannot be used`;
      await makeDemo(buildDemo, new Date(), DEMO_EMAILS);
      return "built";
    });
  return demoSignIns();
}
