/** Reads a decimal with a point or a comma; null when it is none. */
export function readDecimal(text: string): number | null {
  const plain = text.trim().replace("−", "-").replace(",", ".");
  return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

export interface StepRange {
  readonly step: number;
  readonly decimals: number;
  readonly min?: number | undefined;
  readonly max?: number | undefined;
  /** Where stepping starts when nothing is typed. */
  readonly start?: number | undefined;
}

/** The text one step up or down from `text`, kept inside the range, with the comma or point that was typed. */
export function stepped(text: string, direction: 1 | -1, range: StepRange): string {
  const now = readDecimal(text);
  const next = now === null ? (range.start ?? range.min ?? 0) : now + direction * range.step;
  const kept = Math.min(
    range.max ?? Number.POSITIVE_INFINITY,
    Math.max(range.min ?? Number.NEGATIVE_INFINITY, next),
  );
  const out = kept.toFixed(range.decimals);
  return text.includes(",") ? out.replace(".", ",") : out;
}

/** Digits after the point in a step: 0.05 has 2. */
export function decimalsOf(step: number): number {
  const text = String(step);
  const dot = text.indexOf(".");
  return dot < 0 ? 0 : text.length - dot - 1;
}
