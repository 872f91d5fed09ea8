import { type Row, timed } from "./floor";
import type { BenchSite } from "./site";

/** A list page, signed in, against a bare page of the same server: both asked by this process, the server is another. */
export async function pageRows({ base, cookie }: BenchSite): Promise<Row[]> {
  const perSecond = (path: string, as: string) => askedPerSecond(base, path, as);
  const bare = await perSecond("/reset", "");
  const rows: Row[] = [];
  for (const [path, name] of [
    ["/s/saltpan/quotes", "list of quotes"],
    ["/s/saltpan/stock", "list of parts"],
    ["/s/saltpan", "Today"],
  ] as const) {
    const page = await perSecond(path, cookie);
    rows.push({
      work: `page: ${name}, signed in (${page.rate.toFixed(0)}/s)`,
      medianMs: 1000 / page.rate,
      p95Ms: page.p95,
      floor: `bare page (${bare.rate.toFixed(0)}/s)`,
      floorMs: 1000 / bare.rate,
      samples: page.n,
      goal: ">= 0.7x the bare page, so ratio <= 1.43",
    });
  }
  return rows;
}

/** Eight askers for a bounded number of requests. */
async function askedPerSecond(
  base: string,
  path: string,
  cookie: string,
): Promise<{ rate: number; p95: number; n: number }> {
  const ask = async () => {
    const response = await fetch(base + path, { headers: { Cookie: cookie }, redirect: "manual" });
    await response.arrayBuffer();
    if (response.status !== 200) throw new Error(`${path} answered ${response.status}`);
  };
  await timed(ask, 40);
  const total = 600;
  const times: number[] = [];
  let left = total;
  const begun = performance.now();
  await Promise.all(
    Array.from({ length: 8 }, async () => {
      while (left-- > 0) {
        const start = performance.now();
        await ask();
        times.push(performance.now() - start);
      }
    }),
  );
  const seconds = (performance.now() - begun) / 1000;
  times.sort((a, b) => a - b);
  return {
    rate: times.length / seconds,
    p95: times[Math.floor(times.length * 0.95)] ?? Number.NaN,
    n: times.length,
  };
}
