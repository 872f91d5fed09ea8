/** What is read before work and after it, to see what the work did. */
export interface EffectDef {
  readonly name: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly decimals: number;
  /** What of the conditions has to be alike for two readings to be compared. */
  readonly alike: readonly UnderKey[];
  /** How it is read, in a sentence. */
  readonly how: string;
}

/** What a figure was taken under; each kind keeps what it needs. */
export interface Under {
  readonly distanceM?: number | undefined;
  readonly rpm?: number | undefined;
  readonly throttle?: string | undefined;
  readonly standard?: string | undefined;
  readonly litres?: number | undefined;
  readonly km?: number | undefined;
}
export type UnderKey = keyof Under;

/** Limits: judgement. How each is read: common practice, no source. */
export const EFFECTS = {
  noise: {
    name: "Noise",
    unit: "dB(A)",
    low: 40,
    high: 140,
    decimals: 1,
    alike: ["distanceM", "rpm"],
    how: "Standing, at one engine speed, the meter at one place: the shop's own record, which states no compliance with any rule.",
  },
  starting: {
    name: "Cold start",
    unit: "s",
    low: 0,
    high: 120,
    decimals: 1,
    alike: [],
    how: "Seconds of cranking until it runs by itself, after a night's rest.",
  },
  idle: {
    name: "Idle, greatest less least in a minute",
    unit: "rpm",
    low: 0,
    high: 2000,
    decimals: 0,
    alike: [],
    how: "Warm, a minute without a touch: the greatest speed less the least.",
  },
  fuel: {
    name: "Fuel use",
    unit: "l/100 km",
    low: 0.5,
    high: 40,
    decimals: 2,
    alike: [],
    how: "From the owner's fills, full to full: litres and kilometres of as many fills as there are.",
  },
  power: {
    name: "Peak power",
    unit: "kW",
    low: 0.5,
    high: 300,
    decimals: 1,
    alike: ["standard"],
    how: "A dyno run, corrected to the named standard, at the speed of its peak. Three runs say more than one.",
  },
  lambda: {
    name: "Lambda",
    unit: "",
    low: 0.5,
    high: 2,
    decimals: 2,
    alike: ["throttle"],
    how: "A steady reading at one opening, warm.",
  },
} as const satisfies Record<string, EffectDef>;
export type EffectKind = keyof typeof EFFECTS;
export const EFFECT_KINDS = Object.keys(EFFECTS) as [EffectKind, ...EffectKind[]];
export const effectDef = (kind: EffectKind): EffectDef => EFFECTS[kind];

export const SIDES = ["before", "after"] as const;
export type Side = (typeof SIDES)[number];

export interface EffectReading {
  readonly jobId: number;
  readonly side: Side;
  readonly kind: EffectKind;
  readonly value: number;
  readonly under: Under;
}

/** Readings of one kind and of like conditions on one job: the middle value of each side, and what changed. */
export interface Compared {
  readonly jobId: number;
  readonly kind: EffectKind;
  readonly under: Under;
  readonly before: Middle | null;
  readonly after: Middle | null;
  /** After less before; null where a side is missing. */
  readonly difference: number | null;
}

export interface Middle {
  readonly value: number;
  readonly count: number;
}

/** The middle value of a list that is not empty: the mean of the middle two of an even number. Source: identity. */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? 0) + (sorted[Math.ceil(middle)] ?? 0)) / 2;
}

/** Of the conditions those that have to be alike. */
function alikeOf(kind: EffectKind, under: Under): Under {
  return Object.fromEntries(effectDef(kind).alike.map((key) => [key, under[key]]));
}

const keyOf = (kind: EffectKind, under: Under) => `${kind} ${JSON.stringify(alikeOf(kind, under))}`;

/** Before against after, job by job: only readings of one kind taken under like conditions are laid beside each other. */
export function compared(readings: readonly EffectReading[]): Compared[] {
  const groups = Map.groupBy(readings, (one) => `${one.jobId} ${keyOf(one.kind, one.under)}`);
  return [...groups.values()].flatMap((own): Compared[] => {
    const [first] = own;
    if (!first) return [];
    const of = (side: Side): Middle | null => {
      const values = own.filter((one) => one.side === side).map((one) => one.value);
      return values.length === 0 ? null : { value: median(values), count: values.length };
    };
    const [before, after] = [of("before"), of("after")];
    return [
      {
        jobId: first.jobId,
        kind: first.kind,
        under: alikeOf(first.kind, first.under),
        before,
        after,
        difference: before && after ? after.value - before.value : null,
      },
    ];
  });
}

/** What work did on several bikes: the middle change with the least and the greatest, each bike counted once. */
export interface OverBikes {
  readonly kind: EffectKind;
  readonly under: Under;
  readonly median: number;
  readonly low: number;
  readonly high: number;
  readonly bikes: number;
}

/** What one package did on bikes of the shop, as it stood when a quote told it. */
export interface DidHere {
  readonly name: string;
  readonly effects: readonly OverBikes[];
}

/** Differences over bikes, by kind and like conditions; of a bike's jobs the newest that has both sides counts. */
export function overBikes(
  rows: readonly (Compared & { readonly bikeId: number })[],
): { readonly found: OverBikes; readonly counted: readonly (Compared & { readonly bikeId: number })[] }[] {
  const whole = rows.filter((one) => one.difference !== null);
  return [...Map.groupBy(whole, (one) => keyOf(one.kind, one.under)).values()].flatMap((own) => {
    const newest = new Map<number, (typeof own)[number]>();
    for (const row of own.toSorted((a, b) => a.jobId - b.jobId)) newest.set(row.bikeId, row);
    const counted = [...newest.values()];
    const [first] = counted;
    const values = counted.flatMap((one) => one.difference ?? []);
    if (!first) return [];
    const found = {
      kind: first.kind,
      under: first.under,
      median: median(values),
      low: Math.min(...values),
      high: Math.max(...values),
      bikes: values.length,
    };
    return [{ found, counted }];
  });
}
