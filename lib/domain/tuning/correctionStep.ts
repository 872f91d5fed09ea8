import type { Reason } from "../reason";
import type { CarburettorType, SettingKey, SettingValues } from "./cardTypes";
import type { ShimOnHand } from "./needlePosition";
import type { Lever } from "./symptomTable";

/** What a bike and its shop let be changed. */
export interface Correctable {
  /** Clip grooves of the needle; 0: it sits by shims; absent: nobody counted. */
  readonly grooves?: number | undefined;
  readonly shims?: readonly ShimOnHand[] | undefined;
  /** Sizes free in the drawer, for each jet; absent: nobody looked. */
  readonly jets?: Readonly<Partial<Record<SettingKey, readonly number[]>>> | undefined;
  /** Free length of the delivered slide spring, mm. */
  readonly deliveredSpringMm?: number | undefined;
  /** What was tried on this bike before and not kept, with what it did. */
  readonly tried?: readonly { readonly setting: string; readonly to: number; readonly what: string }[];
}

type Sheet = Correctable & {
  readonly settings: SettingValues;
  readonly carburettorType?: CarburettorType | undefined;
};

/** Whether a bike has a setting at all: a needle has a clip or shims, a mechanical slide no lever in its spring. */
export function usable(lever: Lever, sheet: Sheet): boolean {
  if (lever.key === "springLengthMm") return sheet.carburettorType !== "mechanical";
  if (lever.key === "clipPosition") return sheet.grooves !== 0;
  if (lever.key === "needleShimBelowMm")
    return (
      sheet.grooves === 0 || (sheet.grooves === undefined && sheet.settings.needleShimBelowMm !== undefined)
    );
  return true;
}

export interface MadeStep {
  readonly to: number;
  readonly because: readonly Reason[];
}

/** Shims are as thin as this where the drawer has none, mm. Source: common practice. */
const USUAL_SHIM_MM = 0.25;

/**
 * The step that can be made with what there is: a groove that the needle has, a shim of the drawer, a jet of the drawer first, the
 * spring exchanged for the delivered one (a cut spring gets no longer). Null where it cannot be made. Source: common practice.
 */
export function stepThatCanBeMade(lever: Lever, sense: 1 | -1, from: number, sheet: Sheet): MadeStep | null {
  const plain = { to: round(from + sense * lever.step), because: [] };
  if (lever.key === "clipPosition")
    return sheet.grooves !== undefined && plain.to > sheet.grooves ? null : plain;
  if (lever.key === "needleShimBelowMm") return shimStep(sense, from, sheet.shims ?? []);
  if (lever.key === "springLengthMm") return sense < 0 ? plain : springStep(from, sheet.deliveredSpringMm);
  if (lever.key === "mainJet" || lever.key === "pilotJet")
    return jetStep(lever, sense, from, sheet.jets?.[lever.key]);
  return plain;
}

function shimStep(sense: 1 | -1, from: number, shims: readonly ShimOnHand[]): MadeStep | null {
  const free = shims.filter((s) => s.free > 0).map((s) => s.sizeMm);
  const size = free.length > 0 ? Math.min(...free) : USUAL_SHIM_MM;
  if (sense < 0) return from >= size - 1e-9 ? { to: round(from - size), because: [] } : null;
  const said = free.length > 0 ? `A shim of ${size} mm is free` : `No needle shim is free: order ${size} mm`;
  return { to: round(from + size), because: [{ fact: said, from: "stock" }] };
}

function springStep(from: number, delivered: number | undefined): MadeStep | null {
  if (delivered === undefined || delivered <= from) return null;
  return {
    to: delivered,
    because: [
      {
        fact: `The spring was cut to ${from} mm and gets no longer`,
        from: "common practice",
        effect: `exchange it for one of ${delivered} mm, as delivered`,
      },
    ],
  };
}

function jetStep(lever: Lever, sense: 1 | -1, from: number, free: readonly number[] | undefined): MadeStep {
  const next = round(from + sense * lever.step);
  if (free === undefined || free.includes(next)) return { to: next, because: [] };
  const second = round(from + 2 * sense * lever.step);
  if (sense > 0 && free.includes(second))
    return {
      to: second,
      because: [
        {
          fact: `${next} is not in the drawer`,
          from: "stock",
          effect: `${second} is, and is the richer side`,
        },
      ],
    };
  return { to: next, because: [{ fact: `${next} is not in the drawer`, from: "stock", effect: "order it" }] };
}

const round = (value: number): number => Number(value.toFixed(4));
