import { readSettingsFile, tellLibraries } from "@/lib/configuration/configuration";
import { dataFolder, postgresUrl, projectRoot } from "@/lib/db/folders";
import { holdDataFolder } from "@/lib/db/inUse";
import { holdDatabase } from "@/lib/db/inUsePostgres";
import { serverNames, serverSaid } from "@/lib/db/servers";
import { shopFaults, takeFault } from "@/lib/db/shopFaults";
import { publicUrl } from "@/lib/gate/origin";
import { photoStoreHealth } from "@/lib/gate/photoStoreHealth";
import { say } from "@/lib/log/say";
import { backupPlan } from "./backup/plan";
import { startBackups } from "./backup/schedule";
import { beginLogs } from "./logging";
import { startPeopleMail } from "./peopleMail";
import { phase, takeSecret } from "./phases";
import type { Prepared } from "./prepare";
import { writePrivately } from "./privacy";
import { thisMachine, usualProcesses } from "./processes/count";
import { refused } from "./refused";
import { startRounds } from "./rounds";
import { tellNext } from "./tellNext";

/** Serves, with all that goes on beside: rounds, mail, backups. */
export async function run(prepared: Prepared, dev: boolean): Promise<void> {
  try {
    await serving(prepared, dev);
  } catch (cause) {
    refused(cause);
  }
}

async function serving({ signIns, faults }: Prepared, dev: boolean): Promise<void> {
  const { PORT: port, HOST: host, WEB_PROCESSES } = readSettingsFile(projectRoot);
  tellLibraries({ NODE_ENV: dev ? "development" : "production" });
  writePrivately();
  takeSecret();
  tellNext();
  const url = postgresUrl();
  const inUse = url ? await holdDatabase(url) : holdDataFolder();
  process.once("exit", () => void inUse.release());
  for (const fault of faults) takeFault(fault);
  const backups = backupPlan();
  const processes = dev ? 1 : (WEB_PROCESSES ?? usualProcesses(thisMachine()));
  await phase("Web server", async () => {
    if (processes === 1) {
      const { serve } = await import("./serve");
      return serve({ port, host, dev });
    }
    const { serveByWorkers } = await import("./processes/serveByWorkers");
    await serveByWorkers(processes, refused);
    return `${processes} processes`;
  });
  await beginLogs(dev);
  // A bucket that cannot be reached is told of in the log at once, not by the first photo.
  photoStoreHealth();
  startPeopleMail();
  startRounds();
  startBackups(backups);
  say(
    [
      "",
      `  Throttlewright  ${publicUrl().origin}`,
      ...signIns.map((line) => `  ${line}`),
      `  Data lives in   ${url ? inPostgres() : dataFolder()}`,
      ...(backups.on ? [`  Backups go to   ${backups.folder}, daily at ${backups.at}`] : []),
      ...shopFaults().map(({ slug, place, reason }) => `  CANNOT BE OPENED  ${slug}: ${place}. ${reason}`),
      "  Stop with Ctrl+C.",
      "",
    ].join("\n"),
  );
}

function inPostgres(): string {
  const servers = serverNames();
  return servers.length === 1
    ? "PostgreSQL (DATABASE_URL)"
    : `PostgreSQL, servers ${servers.map(serverSaid).join(", ")}`;
}
