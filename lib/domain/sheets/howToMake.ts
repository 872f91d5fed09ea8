/** A size that the drawer may have of what a step needs. */
export interface SizeInDrawer {
  readonly sizeMm: number;
  readonly free: number;
  readonly bin: string;
}

/** How a setting is made by hand, in sentences: the tool or size to take, and what to do where the drawer does not have it. */
export function howToMake(
  setting: string,
  from: number | null,
  to: number,
  shims: readonly SizeInDrawer[],
): readonly string[] {
  const maker = MAKERS[setting];
  return maker && from !== to ? maker(from, to, shims) : [];
}

type Maker = (from: number | null, to: number, shims: readonly SizeInDrawer[]) => readonly string[];

const MAKERS: Readonly<Record<string, Maker>> = {
  needleShimBelowMm: (from, to, shims) => (from === null ? [COUNT_SHIMS] : shimWords(to - from, shims)),
  clipPosition: (_, to) => [`Clip in groove ${to}, counted from the top.`],
  needleSeatMm: (from, to) =>
    from === null
      ? ["Measure the seat height before anything is changed: it is not known as found."]
      : [
          `${to > from ? "Raise" : "Lower"} the needle by ${mm(Math.abs(to - from))} and measure with the depth gauge.`,
        ],
  springLengthMm: (from, to) => springWords(from, to, "mm"),
  springCoils: (from, to) => springWords(from, to, "coils"),
  liftHoleMm: (_, to) => [
    `Ream to ${mm(to)} and try with a pin gauge of ${mm(to)}.`,
    `Without that reamer take the next smaller one (${mm(Number((to - 0.1).toFixed(2)))}) and enter what it became: a hole gets no smaller.`,
  ],
  airboxOpeningMm: (_, to) => [
    `Hole saw ${to} mm. Keep the cut away from the carburettor breather.`,
    "Without that saw take the next smaller one and enter what it became.",
  ],
};

const COUNT_SHIMS =
  "Count and measure the shims below the needle's shoulder first: they are not known as found.";
const mm = (value: number): string => `${Number(value.toFixed(3))} mm`;

function springWords(from: number | null, to: number, unit: string): readonly string[] {
  if (from === null) return ["Measure the spring that is fitted first."];
  return to < from
    ? [`Cut it from ${from} to ${to} ${unit}, a quarter of a coil at a time, and bend no end.`]
    : [`A spring gets no longer: exchange it for one of ${to} ${unit}.`];
}

/** Which shims make a difference, from what the drawer has free. */
function shimWords(difference: number, shims: readonly SizeInDrawer[]): readonly string[] {
  if (difference < 0)
    return [
      `Take ${mm(-difference)} of shims out from below the shoulder and put them above it, so that the needle has no play.`,
    ];
  const stack = stackOf(difference, shims);
  if (stack)
    return [
      `Put below the shoulder: ${stack.map((s) => `${mm(s.sizeMm)}${s.bin ? ` (bin ${s.bin})` : ""}`).join(" and ")}.`,
    ];
  const nearest = shims
    .filter((s) => s.free > 0)
    .toSorted((a, b) => Math.abs(a.sizeMm - difference) - Math.abs(b.sizeMm - difference))[0];
  return [
    nearest
      ? `The drawer has no shims that make ${mm(difference)}: the nearest is ${mm(nearest.sizeMm)}.`
      : `The drawer has no needle shims: ${mm(difference)} is needed.`,
    "Order it; else fit the nearest, enter what was fitted, and ride: the correction says how far it is off.",
  ];
}

/** Fewest shims that add up to a thickness, at most four; undefined where the drawer has none that do. */
function stackOf(thickness: number, shims: readonly SizeInDrawer[]): readonly SizeInDrawer[] | undefined {
  const pieces = shims.flatMap((s) => Array.from({ length: Math.min(4, s.free) }, () => s)).slice(0, 24);
  let stacks: { at: number; sum: number; used: readonly SizeInDrawer[] }[] = [{ at: 0, sum: 0, used: [] }];
  for (let count = 0; count < 4; count++) {
    const seen = new Set<string>();
    stacks = stacks.flatMap(({ at, sum, used }) =>
      pieces.slice(at).flatMap((piece, i) => {
        const next = { at: at + i + 1, sum: sum + piece.sizeMm, used: [...used, piece] };
        const key = `${next.sum.toFixed(3)} ${piece.sizeMm}`;
        if (next.sum > thickness + 0.001 || seen.has(key)) return [];
        seen.add(key);
        return [next];
      }),
    );
    const exact = stacks.find((stack) => Math.abs(stack.sum - thickness) < 0.001);
    if (exact) return exact.used;
  }
  return undefined;
}
