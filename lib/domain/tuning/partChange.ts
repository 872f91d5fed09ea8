import { type DescribedKind, type DescribedPart, figuresOf } from "./describedParts";
import type { SettingChange } from "./settingChange";
import type { SettingValues } from "./targetTypes";

/** A part as a package leaves it: all that described parts can be but a jet, which jets and their drawers answer. */
export type PartChange = Exclude<DescribedPart, { kind: "jet" }>;
export type ChangedKind = PartChange["kind"];

export const CHANGED_KINDS = ["spring", "liftHoles", "openings", "filter", "silencer"] as const;

/** A part before and after a package's work; before is null where nobody described it. */
export interface PartTarget {
  readonly before: DescribedPart | null;
  readonly after: PartChange;
}

/** The settings whose change changes a part; none for a filter or a silencer, which no setting describes. */
export const SETTINGS_OF: Readonly<Record<ChangedKind, readonly (keyof SettingValues)[]>> = {
  spring: ["springLengthMm", "springCoils"],
  liftHoles: ["liftHoleCount", "liftHoleMm"],
  openings: ["airboxOpeningMm"],
  filter: [],
  silencer: [],
};

/** The setting changes that follow from parts put in: their figures. */
export function changesOfParts(parts: readonly PartChange[]): readonly SettingChange[] {
  return parts.flatMap((part) =>
    figuresOf(part).map(({ setting, value }) => ({ setting, change: "set" as const, value })),
  );
}

/**
 * The parts that work leaves otherwise: those that the package puts in, then described ones whose settings it changes. `parts` are
 * those described on the bike, `found` and `values` its settings before and after.
 */
export function changedParts(
  parts: readonly DescribedPart[],
  changes: readonly PartChange[],
  found: SettingValues,
  values: SettingValues,
): readonly PartTarget[] {
  const beforeOf = (kind: DescribedKind) => parts.find((part) => part.kind === kind) ?? null;
  return CHANGED_KINDS.flatMap((kind): PartTarget[] => {
    const before = beforeOf(kind);
    const put = changes.find((change) => change.kind === kind);
    if (put) return [{ before, after: put }];
    const followed = before && followedBy(before, found, values);
    return followed ? [{ before, after: followed }] : [];
  });
}

/** A described part as changed settings leave it; null where they leave it as it is. Source: geometry; EN 13906-1 for a cut spring. */
export function followedBy(
  part: DescribedPart,
  found: SettingValues,
  values: SettingValues,
): PartChange | null {
  if (part.kind === "jet") return null;
  const keys = SETTINGS_OF[part.kind];
  if (!keys.some((key) => values[key] !== undefined && differs(found[key], values[key]))) return null;
  switch (part.kind) {
    case "spring":
      return cutTo(part, values);
    case "liftHoles":
      return drilledTo(part.holesMm, values);
    case "openings":
      return openedTo(part.openings, values.airboxOpeningMm ?? 0);
    default:
      return null;
  }
}

/** Figures of a sheet nearer than this are the same. */
const SAME = 0.051;
const differs = (a: number | undefined, b: number | undefined) =>
  a === undefined || b === undefined || Math.abs(a - b) > SAME;

function cutTo(part: Extract<DescribedPart, { kind: "spring" }>, values: SettingValues): PartChange {
  const freeMm = values.springLengthMm ?? part.freeMm;
  const coils = values.springCoils ?? part.coils;
  // No spring is cut longer: then it is another one, of which only this is known.
  if (freeMm > part.freeMm + SAME)
    return { kind: "spring", change: "exchanged", freeMm, wireMm: null, coils, rateNPerM: null };
  const share = part.coils && coils ? part.coils / coils : part.freeMm / freeMm;
  const rateNPerM = part.rateNPerM === null ? null : Number((part.rateNPerM * share).toFixed(1));
  return { kind: "spring", change: "cut", freeMm, wireMm: part.wireMm, coils, rateNPerM };
}

function drilledTo(holesMm: readonly number[], values: SettingValues): PartChange {
  const count = values.liftHoleCount ?? holesMm.length;
  const each = values.liftHoleMm ?? holesMm[0] ?? 0;
  return { kind: "liftHoles", holesMm: each === 0 ? [] : Array.from({ length: count }, () => each) };
}

type Openings = Extract<DescribedPart, { kind: "openings" }>["openings"];

/** Openings that come to the area of one of a diameter: one more where it grows, that one alone where it does not. */
function openedTo(openings: Openings, diameterMm: number): PartChange {
  const [only, ...others] = openings;
  const area = openings.reduce((sum, one) => sum + one.diameterMm ** 2, 0);
  const more = Math.sqrt(Math.max(0, diameterMm ** 2 - area));
  if (others.length > 0 && more > 1)
    return {
      kind: "openings",
      openings: [...openings, { diameterMm: Number(more.toFixed(1)), breatherMm: null }],
    };
  if (diameterMm === 0) return { kind: "openings", openings: [] };
  return { kind: "openings", openings: [{ diameterMm, breatherMm: only?.breatherMm ?? null }] };
}
