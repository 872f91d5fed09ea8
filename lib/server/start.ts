import { readSettingsFile, tellLibraries } from "@/lib/configuration/configuration";
import { generateClients } from "@/lib/db/cli/generate";
import { dataFolder, postgresUrl, projectRoot } from "@/lib/db/places";
import { Refusal } from "@/lib/domain/refusal";
import { complain, say } from "@/lib/log/say";
import { ensureBuild } from "./build";
import { beginLogs } from "./logging";
import { demandDataFolder, demandPort, phase, takeSecret } from "./phases";

const dev = process.argv.includes("--dev");

async function start(): Promise<void> {
  const { PORT: port, HOST: host, DEMO } = readSettingsFile(projectRoot);
  tellLibraries({ NEXT_TELEMETRY_DISABLED: "1", NODE_ENV: dev ? "development" : "production" });
  say("Throttlewright is starting.");
  demandDataFolder();
  await demandPort(port, host);
  takeSecret();
  await phase("Database clients", () => (generateClients() ? "made" : "current"));

  // Loaded only now: they need the generated clients.
  const { migrateAll } = await import("@/lib/db/migrate");
  await phase("Databases", async () => {
    const lines: string[] = [];
    await migrateAll((line) => lines.push(line));
    return lines.length ? `brought up to date: ${lines.join("; ")}` : "up to date";
  });
  const { publicUrl } = await import("@/lib/gate/origin");
  tellLibraries({ NEXTAUTH_URL: publicUrl().origin });
  const signIns = DEMO ? await demo() : [];
  if (!dev) await phase("Production build", ensureBuild);
  await beginLogs(dev);
  const { serve } = await import("./serve");
  const { startRounds } = await import("./rounds");
  await phase("Web server", () => serve({ port, host, dev }).then(() => undefined));
  startRounds();
  say(
    [
      "",
      `  Throttlewright  ${publicUrl().origin}`,
      ...signIns.map((line) => `  ${line}`),
      `  Data lives in   ${postgresUrl() ? "PostgreSQL (DATABASE_URL)" : dataFolder()}`,
      "  Stop with Ctrl+C.",
      "",
    ].join("\n"),
  );
}

/** The two demo shops are built on the first run, when nobody has signed up. */
async function demo(): Promise<string[]> {
  const { makeDemo, wantsDemo } = await import("./demoShops");
  const { buildDemo, demoSignIns } = await import("@/demo/build");
  if (await wantsDemo()) await phase("Demo shops", () => makeDemo(buildDemo, new Date()).then(() => "built"));
  return demoSignIns();
}

try {
  await start();
} catch (cause) {
  if (!(cause instanceof Refusal)) throw cause;
  complain(`\n${cause.message}\n${cause.remedy}`);
  process.exit(1);
}
