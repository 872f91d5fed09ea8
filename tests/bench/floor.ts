/** A tenth of a number where the bench only has to show that it works (`--short`): what it finds then says little. */
export const few = (count: number) => (process.env.BENCH_SHORT ? Math.ceil(count / 10) : count);

/** Calls of a piece of work. */
export interface Times {
  /** Milliseconds of each call, least first. */
  readonly sorted: readonly number[];
  /** Milliseconds that this thread's processor worked for a call, on average: what a busy machine changes least. */
  readonly cpuMs: number;
}

type Run = () => unknown | Promise<unknown>;

const worked = () => {
  const { user, system } = process.threadCpuUsage();
  return (user + system) / 1000;
};

/** Runs `run` often enough to be told apart from noise. */
export async function timed(run: Run, most: number, warm = Math.ceil(most / 10)): Promise<Times> {
  const samples = few(most);
  for (let n = 0; n < warm; n++) await run();
  const times: number[] = [];
  const before = worked();
  for (let n = 0; n < samples; n++) {
    const begun = performance.now();
    await run();
    times.push(performance.now() - begun);
  }
  return { sorted: times.sort((a, b) => a - b), cpuMs: (worked() - before) / samples };
}

/** The same of several works by turns, so that a machine that grows busier meanwhile grows busier for each of them. */
export async function byTurns<Name extends string>(
  runs: Readonly<Record<Name, Run>>,
  turns: number,
  samples: number,
): Promise<Record<Name, Times>> {
  const found = new Map<string, Times[]>();
  for (let turn = 0; turn < turns; turn++)
    for (const [name, run] of Object.entries<Run>(runs))
      found.set(name, [...(found.get(name) ?? []), await timed(run, samples, turn === 0 ? samples : 1)]);
  const joined = [...found].map(([name, times]): [string, Times] => [
    name,
    {
      sorted: times.flatMap((one) => one.sorted).sort((a, b) => a - b),
      cpuMs: times.reduce((sum, one) => sum + one.cpuMs, 0) / turns,
    },
  ]);
  return Object.fromEntries(joined) as Record<Name, Times>;
}

export const median = (sorted: readonly number[]) => sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
export const p95 = (sorted: readonly number[]) => sorted[Math.floor(sorted.length * 0.95)] ?? Number.NaN;

/** What a row should reach; null where it is there to be compared with. */
export type Goal = { readonly says: string; met(row: Row): boolean } | null;

export const medianWithin = (ms: number): Goal => ({
  says: `median <= ${ms} ms`,
  met: (row) => row.medianMs <= ms,
});
export const longestWithin = (ms: number): Goal => ({
  says: `longest <= ${ms} ms`,
  met: (row) => row.p95Ms <= ms,
});
export const timesFloor = (times: number): Goal => ({
  says: `<= ${times}x its floor`,
  met: (row) => row.floorMs !== null && row.medianMs / row.floorMs <= times,
});

export interface Row {
  readonly work: string;
  readonly medianMs: number;
  /** The longest, where few runs were made. */
  readonly p95Ms: number;
  /** Null where it was not measured. */
  readonly cpuMs: number | null;
  /** What it is compared with, and that one's median. */
  readonly floor: string;
  readonly floorMs: number | null;
  readonly samples: number;
  readonly goal: Goal;
}

/** A row of times, beside those of its floor where it has one. */
export function rowOf(work: string, times: Times, goal: Goal, floor = "-", least: Times | null = null): Row {
  return {
    work,
    medianMs: median(times.sorted),
    p95Ms: p95(times.sorted),
    cpuMs: times.cpuMs,
    floor,
    floorMs: least && median(least.sorted),
    samples: times.sorted.length,
    goal,
  };
}

export const metText = (met: boolean) => (met ? "yes" : "NO");

export function table(rows: readonly Row[]): string {
  const head = ["work", "median ms", "p95 ms", "CPU ms", "floor", "floor ms", "ratio", "n", "goal", "met"];
  const body = rows.map((r) => [
    r.work,
    r.medianMs.toFixed(3),
    r.p95Ms.toFixed(3),
    r.cpuMs === null ? "-" : r.cpuMs.toFixed(3),
    r.floor,
    r.floorMs === null ? "-" : r.floorMs.toFixed(3),
    r.floorMs === null ? "-" : (r.medianMs / r.floorMs).toFixed(2),
    String(r.samples),
    r.goal?.says ?? "to compare with",
    r.goal ? metText(r.goal.met(r)) : "-",
  ]);
  return columns(head, body);
}

/** Lines of text whose cells stand below one another. */
export function columns(head: readonly string[], body: readonly (readonly string[])[]): string {
  const widths = head.map((h, i) => Math.max(h.length, ...body.map((cells) => (cells[i] ?? "").length)));
  return [head, ...body]
    .map((cells) =>
      cells
        .map((cell, i) => cell.padEnd(widths[i] ?? 0))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}

/** The least, the middle and the most of some runs. */
export function spread(values: readonly number[], digits: number): string {
  const sorted = values.toSorted((a, b) => a - b);
  return [sorted[0] ?? Number.NaN, median(sorted), sorted.at(-1) ?? Number.NaN]
    .map((value) => value.toFixed(digits))
    .join(" / ");
}
