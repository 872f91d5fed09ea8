export interface StripStep {
  readonly kind: "open" | "operation" | "close";
  readonly name: string;
  readonly minutes: number;
}

/** An opening from one step to another, both counted from 0 and both inside. */
export interface StripBracket {
  readonly from: number;
  readonly to: number;
  readonly label: string;
}

export interface LaidStep extends StripStep {
  readonly number: number;
  /** Percent of the whole. */
  readonly left: number;
  readonly wide: number;
}

export interface LaidBracket extends StripBracket {
  readonly left: number;
  readonly wide: number;
  /** 0 is next to the strip. */
  readonly level: number;
  /** The words end at the bracket's right end instead of beginning at its left. */
  readonly fromRight: boolean;
}

/** Where each step lies on a strip of 100 percent. A step of no minutes still gets a sliver. */
export function laySteps(steps: readonly StripStep[]): LaidStep[] {
  const total = steps.reduce((sum, step) => sum + Math.max(step.minutes, 0.5), 0);
  let left = 0;
  return steps.map((step, at) => {
    const wide = (Math.max(step.minutes, 0.5) / total) * 100;
    const laid = { ...step, number: at + 1, left, wide };
    left += wide;
    return laid;
  });
}

/** Pixels a letter takes at 13 px. */
export const LETTER = 6.9;

/** The whole label where it fits over its bracket; else what stands before its first dot. */
function wordsOver(label: string, roomPx: number): string {
  return label.length * LETTER + 14 <= roomPx ? label : (label.split(" · ")[0] ?? label);
}

/**
 * Stacks brackets on a strip `widthPx` wide so that neither they nor their words cross: the longest lie next to
 * the strip. Without words only the brackets themselves count.
 */
export function layBrackets(
  brackets: readonly StripBracket[],
  steps: readonly LaidStep[],
  widthPx: number,
  withWords: boolean,
): LaidBracket[] {
  const laid: (LaidBracket & { begins: number; ends: number })[] = [];
  const longestFirst = [...brackets].sort((a, b) => b.to - b.from - (a.to - a.from) || a.from - b.from);
  for (const bracket of longestFirst) {
    const first = steps[bracket.from];
    const last = steps[bracket.to];
    if (!first || !last) continue;
    const { left } = first;
    const wide = last.left + last.wide - left;
    const label = wordsOver(bracket.label, (wide / 100) * widthPx);
    const spoken = withWords ? ((label.length * LETTER + 14) / widthPx) * 100 : 0;
    const fromRight = left > 60;
    const begins = fromRight ? Math.min(left, left + wide - spoken) : left;
    const ends = fromRight ? left + wide : Math.max(left + wide, left + spoken);
    const crossing = laid.filter((other) => other.begins < ends - 0.01 && begins < other.ends - 0.01);
    let level = 0;
    while (crossing.some((other) => other.level === level)) level += 1;
    laid.push({ ...bracket, label, left, wide, level, fromRight, begins, ends });
  }
  return laid;
}
