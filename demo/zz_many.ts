import { generateClients } from "@/lib/db/cli/generate";
const { migrateAll } = await import("@/lib/db/migrate");
const { closeDirectory } = await import("@/lib/db/directory");
const { closeShops } = await import("@/lib/db/shop");
const { buildDemo } = await import("./build");
import { mkdtempSync, rmSync } from "node:fs";
void generateClients;
for (const at of process.argv.slice(2)) {
  process.env.DATA_DIR = mkdtempSync("/tmp/demo-many-");
  const c = process.cpuUsage(); const t = performance.now();
  try { await migrateAll(() => undefined); await buildDemo(new Date(at)); console.log(at, "ok", (performance.now() - t) / 1000, process.cpuUsage(c).user / 1e6); }
  catch (e) { console.log(at, "FAILED", e); }
  await closeShops(); await closeDirectory();
  rmSync(process.env.DATA_DIR, { recursive: true });
}
process.exit(0);
