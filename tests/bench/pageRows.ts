import { median, type Row, timed } from "./floor";
import type { BenchSite } from "./site";

/** Pages are asked in so many rounds, since one round's rate says little on a machine that does other things too. */
const ROUNDS = 3;
const PAGES = [
  ["/s/saltpan/quotes", "list of quotes"],
  ["/s/saltpan/stock", "list of parts"],
  ["/s/saltpan", "Today"],
] as const;
/** Behind the same gate, and reads nothing itself. */
const GATE_ALONE = "/s/saltpan/bench";

/**
 * Pages, signed in, against a bare page of the same server and against one that passes the gate and reads nothing: all asked by
 * this process, the server is another. Each row is the middle of its rounds, with their spread.
 */
export async function pageRows({ base, cookie }: BenchSite): Promise<Row[]> {
  const rounds = new Map<string, Asked[]>();
  for (let round = 0; round < ROUNDS; round++)
    for (const path of ["/reset", GATE_ALONE, ...PAGES.map(([path]) => path)]) {
      const asked = await askedPerSecond(base, path, path === "/reset" ? "" : cookie);
      rounds.set(path, [...(rounds.get(path) ?? []), asked]);
    }
  const of = (path: string) => overRounds(rounds.get(path) ?? []);
  return PAGES.flatMap(([path, name]) => [
    pageRow(`page: ${name}, signed in`, of(path), "bare page", of("/reset"), "ratio <= 1.43"),
    pageRow(`page: ${name}, signed in`, of(path), "gate alone", of(GATE_ALONE), "ratio <= 1.25"),
  ]);
}

interface Asked {
  readonly rate: number;
  readonly p95: number;
  readonly n: number;
}

/** The middle of some rounds, and from which rate to which they went. */
function overRounds(asked: readonly Asked[]) {
  const rates = asked.map((one) => one.rate).sort((a, b) => a - b);
  const [least, most] = [rates[0] ?? Number.NaN, rates.at(-1) ?? Number.NaN];
  return {
    rate: median(rates),
    p95: median(asked.map((one) => one.p95).sort((a, b) => a - b)),
    n: asked.reduce((sum, one) => sum + one.n, 0),
    told: `${median(rates).toFixed(0)}/s, ${least.toFixed(0)} to ${most.toFixed(0)}`,
  };
}

type Rounds = ReturnType<typeof overRounds>;

function pageRow(work: string, page: Rounds, against: string, floor: Rounds, goal: string): Row {
  return {
    work: `${work} (${page.told})`,
    medianMs: 1000 / page.rate,
    p95Ms: page.p95,
    floor: `${against} (${floor.told})`,
    floorMs: 1000 / floor.rate,
    samples: page.n,
    goal,
  };
}

/** Eight askers for a bounded number of requests. */
async function askedPerSecond(base: string, path: string, cookie: string): Promise<Asked> {
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
