import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sessionCookie } from "../../support/session";
import { type Built, dataIn, PASSWORD, startBuilt } from "../load/built";
import { layCopies } from "./copies";
import { machineOf } from "./smallMachine";

/**
 * A server on a small machine whose shops, each a copy of a demo shop, are visited in random order: npm run bench:server. Prints what
 * it takes of memory meanwhile, and what failed. Figures, no test.
 */
const SHOPS = Number(process.env.BENCH_MANY ?? 300);
const MEMORY_MB = Number(process.env.BENCH_MEMORY_MB ?? 512);
const VISITS = SHOPS * 3;
const port = Number(process.env.LOAD_PORT ?? 3493);
const folder = mkdtempSync(join(tmpdir(), "throttlewright-server-"));
const data = dataIn(folder);

const PAGES = ["", "/quotes", "/jobs", "/stock", "/customers", "/quotes/1", "/jobs/1/card", "/bookings"];
/** One visit in so many is a paper, printed in a thread. */
const PAPERS = 20;

const row = (what: string, { shared, own, resident }: ReturnType<Built["memory"]>) =>
  [what.padEnd(24), ...[shared, own, resident].map((mib) => mib.toFixed(0).padStart(9))].join(" ");

const pathOf = (n: number, shop: string) =>
  n % PAPERS === PAPERS - 1 ? `/api/s/${shop}/jobs/1/card` : `/s/${shop}${PAGES[n % PAGES.length]}`;

try {
  await (await startBuilt(port, data, 1)).stop();
  const shops = layCopies(data, SHOPS);
  const machine = machineOf(MEMORY_MB, folder);
  const server = await startBuilt(port, data, 1, {}, machine.under);
  try {
    console.log(`${SHOPS} shops, ${VISITS} visits in random order, one process; machine: ${machine.told}`);
    console.log(
      `${"MiB".padEnd(24)} ${["counted", "not file", "resident"].map((head) => head.padStart(9)).join(" ")}   longest ms  failed`,
    );
    console.log(row("started", server.memory()));
    const cookie = await sessionCookie(server.base, "saltpanOwner", PASSWORD);
    let [peak, longest, failed] = [0, 0, 0];
    for (let n = 0; n <= VISITS; n++) {
      const shop = shops[Math.floor(Math.random() * SHOPS)] as string;
      const at = performance.now();
      const answer = await fetch(server.base + pathOf(n, shop), {
        headers: { Cookie: cookie },
        redirect: "manual",
      });
      await answer.arrayBuffer();
      if (answer.status !== 200) failed += 1;
      longest = Math.max(longest, performance.now() - at);
      const memory = server.memory();
      peak = Math.max(peak, memory.shared);
      if (n === 0 || n % Math.ceil(VISITS / 15) === 0)
        console.log(
          `${row(`${n + 1} visits`, memory)}   ${longest.toFixed(0).padStart(10)}  ${String(failed).padStart(6)}`,
        );
    }
    for (const { name, ...memory } of server.memoryOfEach()) console.log(row(`  ${name}`, memory));
    console.log(
      `most counted ${peak.toFixed(0)} MiB (goal: at most ${MEMORY_MB}, flat); ${failed} of ${VISITS + 1} failed`,
    );
    const killed = machine.killed();
    if (killed !== null) console.log(`processes ended for want of memory: ${killed} (goal: none)`);
  } finally {
    await server.stop();
    machine.end();
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
