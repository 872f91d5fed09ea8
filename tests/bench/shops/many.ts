import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { getHeapStatistics } from "node:v8";
import { reconfigure } from "@/lib/configuration/configuration";
import { shopsFitting } from "@/lib/db/shopsThatFit";

/**
 * Visits many shops in random order with as many open as fit into 512 MiB, and prints what the process takes meanwhile:
 * npm run bench:shops. Figures, no test.
 */
const SHOPS = Number(process.env.BENCH_MANY ?? 300);
const VISITS = SHOPS * 3;
const MIB = 2 ** 20;

const folder = mkdtempSync(join(tmpdir(), "throttlewright-many-"));
const most = shopsFitting(512 * MIB, getHeapStatistics().heap_size_limit);
reconfigure({ DATA_DIR: join(folder, "data"), SHOPS_OPEN: String(most) });
mkdirSync(join(folder, "data"), { recursive: true });

/** The same order in each run: a linear congruential generator with the constants of Numerical Recipes. */
function* random(): Generator<number, never, undefined> {
  for (let state = 1; ; ) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    yield state / 2 ** 32;
  }
}

const { layShops, visit } = await import("./laid");
const { closeShops, openShopCount } = await import("@/lib/db/shop");
try {
  await layShops(SHOPS);
  const order = random();
  console.log(
    `${SHOPS} shops, ${VISITS} visits in random order, at most ${most} open (${2 * most} while they were used just now), heap limit ${Math.round(getHeapStatistics().heap_size_limit / MIB)} MiB`,
  );
  console.log("visits  open  resident MiB  heap MiB  goal: resident <= 512 MiB, flat");
  let [peak, longest] = [0, 0];
  for (let n = 0; n <= VISITS; n++) {
    const at = performance.now();
    await visit(Math.floor(order.next().value * SHOPS));
    longest = Math.max(longest, performance.now() - at);
    const { rss, heapUsed } = process.memoryUsage();
    peak = Math.max(peak, rss);
    if (n % (VISITS / 15) === 0)
      console.log(
        [
          String(n).padStart(6),
          String(openShopCount()).padStart(4),
          (rss / MIB).toFixed(0).padStart(12),
          (heapUsed / MIB).toFixed(0).padStart(8),
        ].join("  "),
      );
  }
  console.log(
    `most resident ${(peak / MIB).toFixed(0)} MiB; the longest visit took ${longest.toFixed(0)} ms`,
  );
} finally {
  await closeShops();
  rmSync(folder, { recursive: true, force: true });
}
