import { columns, few, median, metText, p95, spread } from "./floor";
import type { Report } from "./report";
import type { BenchSite } from "./site";

/** One round's rate says little on a machine that does other things too. */
const ROUNDS = 3;
/** Each page is asked so many times in a row, by turns with the others, so many turns a round. */
const IN_A_ROW = few(30);
const TURNS = 4;
const AT_ONCE = 8;

const BARE = "/reset";
const GATE_ALONE = "/s/saltpan/bench";
const CONSTANT = "/s/saltpan/quotes/constant";
const NAMES: Readonly<Record<string, string>> = {
  [BARE]: "bare page, signed out",
  [GATE_ALONE]: "gate alone: a page that reads nothing",
  [CONSTANT]: "the list of quotes from constants",
  "/s/saltpan/quotes": "list of quotes",
  "/s/saltpan/stock": "list of parts",
  "/s/saltpan": "Today",
};

/** What each page is compared with, and the least part of its rate that is the goal. */
const COMPARED: readonly (readonly [page: string, floor: string, least: number | null])[] = [
  ["/s/saltpan/quotes", CONSTANT, 0.8],
  ["/s/saltpan/quotes", GATE_ALONE, null],
  ["/s/saltpan/quotes", BARE, null],
  [CONSTANT, BARE, null],
  ["/s/saltpan/stock", GATE_ALONE, null],
  ["/s/saltpan", GATE_ALONE, null],
];
/** Of HTML as sent, for a list of 50 rows. */
const MOST_BYTES = 70_000;

interface Round {
  readonly rate: number;
  /** Processor time of the server for each request. */
  readonly cpuMs: number;
  readonly times: readonly number[];
}

/**
 * Pages, signed in, against others of the same server, each in three rounds: least / middle / most of them. The fair floor of a list
 * is the same list behind the same gate drawn from constants (page.bench.tsx).
 */
export async function pageReport(site: BenchSite): Promise<Report> {
  const rounds: Record<string, Round>[] = [];
  for (const path of Object.keys(NAMES)) await asked(site, path, IN_A_ROW);
  for (let round = 0; round < ROUNDS; round++) rounds.push(await byTurns(site));
  const of = (path: string) => rounds.map((round) => round[path] as Round);
  const pages = Object.entries(NAMES).map(([path, name]) => {
    const times = of(path)
      .flatMap((round) => round.times)
      .toSorted((a, b) => a - b);
    const rates = of(path).map((round) => round.rate);
    const cpu = of(path).map((round) => round.cpuMs);
    return [
      name,
      spread(rates, 0),
      median(times).toFixed(0),
      p95(times).toFixed(0),
      spread(cpu, 1),
      String(times.length),
    ];
  });
  const shares = COMPARED.map(([page, floor, least]) => {
    const share = of(page).map((round, n) => round.rate / (of(floor)[n] as Round).rate);
    const cpu = of(page).map((round, n) => (of(floor)[n] as Round).cpuMs / round.cpuMs);
    const met = least === null ? null : median(share.toSorted((a, b) => a - b)) >= least;
    return {
      met,
      work: `${NAMES[page]} against ${NAMES[floor]}`,
      cells: [
        spread(share, 2),
        spread(cpu, 2),
        least === null ? "to compare with" : `>= ${least} of its rate`,
      ],
    };
  });
  const weights = await Promise.all(
    ["/s/saltpan/quotes", CONSTANT].map(async (path) => ({ path, html: await textOf(site, path) })),
  );
  const weighed = weights.map(({ path, html }) => ({
    work: `HTML of ${NAMES[path]}, ${rowsIn(html)} rows`,
    bytes: Buffer.byteLength(html),
    met: Buffer.byteLength(html) <= MOST_BYTES,
  }));
  const text = [
    columns(
      [`page, ${AT_ONCE} asked at once`, "requests/s", "median ms", "p95 ms", "server's CPU ms each", "n"],
      pages,
    ),
    columns(
      ["compared, round by round", "of its rate", "by CPU", "goal", "met"],
      shares.map(({ work, cells, met }) => [work, ...cells, met === null ? "-" : metText(met)]),
    ),
    ...weighed.map(
      ({ work, bytes, met }) =>
        `${work}: ${(bytes / 1000).toFixed(1)} kB, goal <= ${MOST_BYTES / 1000} kB: ${metText(met)}`,
    ),
  ].join("\n\n");
  const goals = [...shares, ...weighed].flatMap(({ work, met }) => (met === null ? [] : [{ work, met }]));
  return { text, goals };
}

async function byTurns(site: BenchSite): Promise<Record<string, Round>> {
  const found = new Map<string, { times: number[]; seconds: number; cpuMs: number }>();
  for (let turn = 0; turn < TURNS; turn++)
    for (const path of turn % 2 === 0 ? Object.keys(NAMES) : Object.keys(NAMES).reverse()) {
      const one = found.get(path) ?? { times: [], seconds: 0, cpuMs: 0 };
      found.set(path, one);
      const before = await site.measured("how");
      const begun = performance.now();
      one.times.push(...(await asked(site, path, IN_A_ROW)));
      one.seconds += (performance.now() - begun) / 1000;
      one.cpuMs += (await site.measured("how")).cpuMs - before.cpuMs;
    }
  return Object.fromEntries(
    [...found].map(([path, { times, seconds, cpuMs }]) => [
      path,
      { rate: times.length / seconds, cpuMs: cpuMs / times.length, times },
    ]),
  );
}

/** Milliseconds of each of so many requests, some at once. */
async function asked(site: BenchSite, path: string, count: number): Promise<number[]> {
  const times: number[] = [];
  let left = count;
  const asker = async () => {
    while (left-- > 0) {
      const start = performance.now();
      await textOf(site, path);
      times.push(performance.now() - start);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, asker));
  return times;
}

async function textOf({ base, cookie }: BenchSite, path: string): Promise<string> {
  const headers = path === BARE ? {} : { Cookie: cookie };
  const response = await fetch(base + path, { headers, redirect: "manual" });
  if (response.status !== 200) throw new Error(`${path} answered ${response.status}`);
  return response.text();
}

/** Rows in the bodies of a page's tables. */
export function rowsIn(html: string): number {
  let rows = 0;
  for (const [, body = ""] of html.matchAll(/<tbody[^>]*>([\s\S]*?)<\/tbody>/g))
    rows += body.split("<tr").length - 1;
  return rows;
}
