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

/** Stacks brackets so that none crosses another: the longest lie next to the strip. */
export function layBrackets(brackets: readonly StripBracket[], steps: readonly LaidStep[]): LaidBracket[] {
  const laid: LaidBracket[] = [];
  const longestFirst = [...brackets].sort((a, b) => b.to - b.from - (a.to - a.from) || a.from - b.from);
  for (const bracket of longestFirst) {
    const first = steps[bracket.from];
    const last = steps[bracket.to];
    if (!first || !last) continue;
    const crossing = laid.filter((other) => other.from <= bracket.to && bracket.from <= other.to);
    let level = 0;
    while (crossing.some((other) => other.level === level)) level += 1;
    laid.push({ ...bracket, left: first.left, wide: last.left + last.wide - first.left, level });
  }
  return laid;
}
