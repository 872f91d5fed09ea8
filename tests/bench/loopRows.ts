import { columns, few, metText } from "./floor";
import type { Report } from "./report";
import type { BenchSite } from "./site";

const SECONDS = few(20);
const PER_SECOND = 10;

/** How late the server's event loop is, and what people wait, while a shop's people arrive at random. */
export async function loopReport(site: BenchSite): Promise<Report> {
  // Loaded only now: it reads the build.
  const { honestWork } = await import("./load/honest");
  const people = { base: site.base, shop: "saltpan", cookie: site.cookie };
  // Each page once before it counts.
  await honestWork(people, PER_SECOND, few(5));
  await site.measured("anew");
  const { times, errors } = await honestWork(people, PER_SECOND, SECONDS);
  const { delay } = await site.measured("how");
  const at = (share: number) => times[Math.floor(times.length * share)] ?? Number.NaN;
  const wrong = Object.values(errors).reduce((sum, count) => sum + count, 0);
  const found: readonly (readonly [work: string, value: number, unit: string, most: number | null])[] = [
    ["answer, p50", at(0.5), "ms", null],
    ["answer, p95", at(0.95), "ms", 60],
    ["answer, p99", at(0.99), "ms", 150],
    ["answers that failed", wrong, "", 0],
    ["event loop late, p99", delay?.p99Ms ?? Number.NaN, "ms", null],
    ["event loop late, p99.9", delay?.p999Ms ?? Number.NaN, "ms", 50],
    ["event loop late, longest", delay?.longestMs ?? Number.NaN, "ms", 50],
  ];
  const rows = found.map(([work, value, unit, most]) => ({
    work,
    met: most === null ? null : value <= most,
    cells: [
      `${value.toFixed(unit ? 1 : 0)} ${unit}`,
      String(times.length),
      most === null ? "to compare with" : `<= ${most} ${unit}`,
    ],
  }));
  return {
    text: columns(
      [`${PER_SECOND} requests a second at random for ${SECONDS} s`, "found", "n", "goal", "met"],
      rows.map(({ work, cells, met }) => [work, ...cells, met === null ? "-" : metText(met)]),
    ),
    goals: rows.flatMap(({ work, met }) => (met === null ? [] : [{ work, met }])),
  };
}
