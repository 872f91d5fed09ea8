import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { reconfigure, tellLibraries } from "@/lib/configuration/configuration";

/**
 * Speed, each figure beside a floor of the same run: npm run bench -- [--short] [part ...], all parts where none is named. Figures, no
 * test: a goal that is missed fails nothing.
 */
const asked = process.argv.slice(2).filter((name) => name !== "--short");
if (process.argv.includes("--short")) tellLibraries({ BENCH_SHORT: "on" });
const folder = mkdtempSync(join(tmpdir(), "throttlewright-bench-"));
// Set before anything opens a database.
reconfigure({ DATA_DIR: join(folder, "data"), NEXT_DIST: ".next-bench", ENV_FILE: "off" });
mkdirSync(join(folder, "data"), { recursive: true });

const { SITE_PARTS, PARTS } = await import("./parts");
const { goalsOf } = await import("./report");
const { withSite } = await import("./site");
const { closeShops } = await import("@/lib/db/shop");

const known = [...Object.keys(PARTS), ...Object.keys(SITE_PARTS)];
const unknown = asked.find((name) => !known.includes(name));
if (unknown) {
  console.error(`There is no part "${unknown}". There are: ${known.join(", ")}.`);
  process.exit(1);
}
const wanted = (name: string) => asked.length === 0 || asked.includes(name);
const told: string[] = [];
const goals: string[] = [];
const begun = performance.now();

async function part(name: string, run: () => Promise<import("./report").Report>): Promise<void> {
  const start = performance.now();
  const report = await run().catch((cause: unknown) => failed(cause));
  const seconds = ((performance.now() - start) / 1000).toFixed(0);
  const text = `${name} (${seconds} s)\n${report.text}\n`;
  console.log(text);
  told.push(report.whole ? `${name} (${seconds} s)\n${report.whole}\n` : text);
  goals.push(...goalsOf(name, report));
}

/** The other parts are measured all the same. */
function failed(cause: unknown): import("./report").Report {
  const text = cause instanceof Error ? (cause.stack ?? cause.message) : String(cause);
  return { text: `FAILED: ${text}`, goals: [{ work: "the part itself, which failed", met: false }] };
}

try {
  for (const [name, run] of Object.entries(PARTS)) if (wanted(name)) await part(name, run);
  await closeShops();
  const asking = Object.entries(SITE_PARTS).filter(([name]) => wanted(name));
  if (asking.length > 0)
    await withSite(join(folder, "pages"), async (site) => {
      for (const [name, run] of asking) await part(name, () => run(site));
    });
  const end = [
    ...goals,
    "",
    `${((performance.now() - begun) / 60_000).toFixed(1)} minutes; ${cpus().length} cores, ${cpus()[0]?.model ?? "unknown processor"}, load ${loadavg()
      .map((load) => load.toFixed(1))
      .join(" ")}, Node ${process.version}`,
    "",
  ].join("\n");
  console.log(end);
  mkdirSync(".bench", { recursive: true });
  writeFileSync(
    join(".bench", asked.length === 0 ? "last.txt" : `${asked.join("-")}.txt`),
    [...told, end].join("\n"),
  );
} finally {
  await closeShops();
  rmSync(folder, { recursive: true, force: true });
}
