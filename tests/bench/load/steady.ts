import { PASSWORD } from "./built";
import { get, type Site, signIn } from "./site";

/** So many people of two shops who each ask for the next page once they have the last one. Run by processes.ts. */
export interface Served {
  readonly asked: number;
  readonly errors: number;
  readonly p50: number;
  readonly p95: number;
}

const PAGES = ["", "/jobs", "/quotes", "/quotes/1", "/stock", "/customers", "/jobs/1/card", "/jobs"];

const [base = "", parallel = "8", seconds = "20"] = process.argv.slice(2);

async function ask(sites: readonly Site[], forMs: number): Promise<Served> {
  const until = performance.now() + forMs;
  const times: number[] = [];
  let errors = 0;
  const person = async (n: number) => {
    for (let turn = n; performance.now() < until; turn++) {
      const site = sites[n % sites.length] as Site;
      const began = performance.now();
      const { status } = await get(site, `/s/${site.shop}${PAGES[turn % PAGES.length]}`);
      if (status >= 400) errors++;
      times.push(performance.now() - began);
    }
  };
  await Promise.all(Array.from({ length: Number(parallel) }, (_, n) => person(n)));
  times.sort((a, b) => a - b);
  const at = (share: number) => times[Math.floor(times.length * share)] ?? Number.NaN;
  return { asked: times.length, errors, p50: at(0.5), p95: at(0.95) };
}

const sites = [await signIn(base, "saltpanOwner", PASSWORD), await signIn(base, "fjellrevOwner", PASSWORD)];
// Each page once everywhere before it counts.
await ask(sites, 5_000);
process.send?.("ready");
process.send?.(await ask(sites, Number(seconds) * 1000));
process.disconnect();
