import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { reconfigure } from "@/lib/configuration/configuration";

// Set before anything opens a database.
const folder = mkdtempSync(join(tmpdir(), "throttlewright-bench-"));
reconfigure({ DATA_DIR: join(folder, "data") });
mkdirSync(join(folder, "data"), { recursive: true });

const { table } = await import("./floor");
const { blockRows } = await import("./blockRows");
const { browserTable } = await import("./browserRows");
const { databaseRows } = await import("./databaseRows");
const { domainRows } = await import("./domainRows");
const { importRows } = await import("./importRows");
const { pageRows } = await import("./pageRows");
const { withSite } = await import("./site");
const { statementTable } = await import("./statementRows");
const { tickTable } = await import("./tickRows");
const { weightTable } = await import("./weightRows");
const { workerRows } = await import("./workerRows");
const { closeShops } = await import("@/lib/db/shop");

try {
  const big = Number(process.env.BENCH_ROWS ?? 100_000);
  const rows = [
    ...(await blockRows()),
    ...(await workerRows()),
    ...(await importRows()),
    ...(await domainRows()),
    ...(await databaseRows(big)),
  ];
  await closeShops();
  const weights: string[] = [];
  if (process.env.BENCH_PAGES !== "off")
    await withSite(join(folder, "pages"), async (site) => {
      rows.push(...(await pageRows(site)));
      weights.push(
        await statementTable(site),
        await weightTable(site),
        await browserTable(site),
        await tickTable(site),
      );
    });
  const text = `${[table(rows), ...weights].join("\n\n")}\n\n${cpus().length} cores, ${cpus()[0]?.model ?? "unknown processor"}, Node ${process.version}\n`;
  console.log(text);
  mkdirSync(".bench", { recursive: true });
  writeFileSync(".bench/last.txt", text);
} finally {
  await closeShops();
  rmSync(folder, { recursive: true, force: true });
}
