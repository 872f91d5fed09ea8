/** Runs `run` often enough to be told apart from noise; answers sorted milliseconds per call. */
export async function timed(
  run: () => unknown | Promise<unknown>,
  samples: number,
  warm = Math.ceil(samples / 10),
): Promise<number[]> {
  for (let n = 0; n < warm; n++) await run();
  const times: number[] = [];
  for (let n = 0; n < samples; n++) {
    const begun = performance.now();
    await run();
    times.push(performance.now() - begun);
  }
  return times.sort((a, b) => a - b);
}

export const median = (sorted: readonly number[]) => sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
export const p95 = (sorted: readonly number[]) => sorted[Math.floor(sorted.length * 0.95)] ?? Number.NaN;

export interface Row {
  readonly work: string;
  readonly medianMs: number;
  readonly p95Ms: number;
  /** What it is compared with, and that one's median. */
  readonly floor: string;
  readonly floorMs: number | null;
  readonly samples: number;
  readonly goal: string;
}

export function table(rows: readonly Row[]): string {
  const head = ["work", "median ms", "p95 ms", "floor", "floor ms", "ratio", "n", "goal"];
  const body = rows.map((r) => [
    r.work,
    r.medianMs.toFixed(3),
    r.p95Ms.toFixed(3),
    r.floor,
    r.floorMs === null ? "-" : r.floorMs.toFixed(3),
    r.floorMs === null ? "-" : (r.medianMs / r.floorMs).toFixed(2),
    String(r.samples),
    r.goal,
  ]);
  const widths = head.map((h, i) => Math.max(h.length, ...body.map((b) => (b[i] ?? "").length)));
  return [head, ...body].map((cells) => cells.map((c, i) => c.padEnd(widths[i] ?? 0)).join("  ")).join("\n");
}
