import { generateClients } from "@/lib/db/cli/generate";
import { dataFolder, postgresUrl } from "@/lib/db/places";
import { Refusal } from "@/lib/domain/refusal";
import { ensureBuild } from "./build";
import { demandDataFolder, demandPort, phase, takeSecret } from "./phases";

const dev = process.argv.includes("--dev");

async function start(): Promise<void> {
  const port = Number(process.env.PORT ?? "3000");
  if (!Number.isInteger(port) || port < 1 || port > 65_535)
    throw new Refusal(`PORT is ${process.env.PORT}, which is no port.`, "Use a number from 1 to 65535.");
  const host = process.env.HOST ?? "localhost";
  process.env.NEXT_TELEMETRY_DISABLED = "1";
  Object.assign(process.env, { NODE_ENV: dev ? "development" : "production" });
  console.log("Throttlewright is starting.");
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
  process.env.NEXTAUTH_URL = publicUrl().origin;
  const signIns = process.env.DEMO === "off" ? [] : await demo();
  if (!dev) await phase("Production build", ensureBuild);
  const { serve } = await import("./serve");
  const { startPost } = await import("./post");
  const { startPeoplePost } = await import("./peoplePost");
  const { readyStrength } = await import("@/lib/data/people/strength");
  readyStrength();
  const { startRounds } = await import("./rounds");
  const { startSweeping } = await import("./sweep");
  await phase("Web server", () => serve({ port, host, dev }).then(() => undefined));
  startPost();
  startPeoplePost();
  startRounds();
  startSweeping();
  console.log(
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
  console.error(`\n${cause.message}\n${cause.remedy}`);
  process.exit(1);
}
