import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { reconfigure } from "@/lib/configuration/configuration";

/**
 * What the books and the lists cost in a shop of ten years, as the processor's time and the rows handed over: npm run bench:years. Figures, no test.
 * BENCH_RECEIPTS sets how many receipts there are.
 */
const folder = mkdtempSync(join(tmpdir(), "throttlewright-years-"));
reconfigure({ DATA_DIR: folder });
mkdirSync(folder, { recursive: true });

const { createShopDatabase } = await import("@/lib/db/migrate");
const { closeShops, shopFile } = await import("@/lib/db/shop");
const { handleFor } = await import("@/lib/gate/handle");
const { prepareShop } = await import("@/lib/data/shop/prepare");
const { issuedInvoice, nameShop, readyJob } = await import("../../support/invoices");
const { line, partToSell, saleOf, sold } = await import("../../support/sales");
const { seedYears, TEN_YEARS } = await import("./seed");
const { worksOf } = await import("./works");

const NOW = new Date("2026-11-25T00:30:00Z");
try {
  await createShopDatabase({ database: "years", server: "" });
  const owner = { personId: "owner", name: "Owner", role: "owner" as const, staffId: null };
  const shop = handleFor({ slug: "years", database: "years", server: "" }, owner, NOW);
  const { staffId } = await prepareShop(shop, { name: "Ten years", country: "AU" });
  const own = { ...shop, by: { ...owner, staffId } };
  await own.write((tx) =>
    tx.labourGrade.updateMany({
      data: { ratePerHourMinor: 10_000, costPerHourMinor: 5_000, rateSet: true },
    }),
  );
  await nameShop(own);
  await issuedInvoice(own, (await readyJob(own)).jobId);
  await sold(own, saleOf([line(await partToSell(own), 1, 84_200)], { method: "card" }));
  await closeShops();
  const receipts = Number(process.env.BENCH_RECEIPTS ?? TEN_YEARS.receipts);
  seedYears(shopFile("years"), NOW.getTime(), { ...TEN_YEARS, receipts });
  console.log("work | processor s | statements' rows");
  for (const [work, run] of worksOf(own)) {
    const before = process.cpuUsage();
    const said = await run();
    const { user, system } = process.cpuUsage(before);
    console.log(`${work} | ${((user + system) / 1e6).toFixed(2)} | ${said}`);
  }
} finally {
  await closeShops();
  rmSync(folder, { recursive: true, force: true });
}
