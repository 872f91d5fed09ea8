import type { FittedSpring } from "./fittedSpring";
import { slideRiseRatio } from "./slide";
import type { ModelCardFacts, Ratio, SettingValues } from "./targetTypes";

/** Slide rise time, new over old, from lift holes; null when a side is unknown or nothing lets the slide rise. */
function riseRatio(from: SettingValues, to: SettingValues): Ratio | null {
  const holes = (s: SettingValues) =>
    s.liftHoleCount && s.liftHoleMm ? { count: s.liftHoleCount, holeMm: s.liftHoleMm } : null;
  const a = holes(from);
  const b = holes(to);
  if (!a || !b) return null;
  const value = slideRiseRatio(a, b);
  return {
    value,
    because: [
      {
        fact: `${a.count} x ${a.holeMm} mm to ${b.count} x ${b.holeMm} mm`,
        from: "rise time goes as one over lift-hole area",
        effect: `area x ${(1 / value).toFixed(2)}, rise time x ${value.toFixed(3)}`,
      },
    ],
    firmness: "starting point",
  };
}

/** Slide spring rate, new over old, from coils or else free length; null when a side is unknown. Source: EN 13906-1. */
export function springRatio(from: SettingValues, to: SettingValues): Ratio | null {
  const sides = (["springCoils", "springLengthMm"] as const).filter(
    (key) => from[key] !== undefined && to[key] !== undefined,
  );
  const key = sides.find((k) => from[k] !== to[k]) ?? sides[0];
  if (key === undefined) return null;
  const [a, b] = [from[key] ?? 1, to[key] ?? 1];
  const value = a / b;
  return {
    value,
    because: [
      {
        fact: `${a} to ${b} ${key === "springCoils" ? "coils" : "mm"}`,
        from: "EN 13906-1: rate goes as one over active coils",
        effect: `rate x ${value.toFixed(2)}`,
      },
    ],
    firmness: "firm",
  };
}

/** Both ratios; null on a mechanical slide, which has neither lift holes nor a balance. */
export function ratios(
  card: ModelCardFacts,
  from: SettingValues,
  to: SettingValues,
  springs: { readonly from?: FittedSpring | undefined; readonly to?: FittedSpring | undefined } = {},
): { readonly slideRise: Ratio | null; readonly springRate: Ratio | null } {
  if (card.carburettorType?.value === "mechanical") return { slideRise: null, springRate: null };
  const measured = measuredRatio(springs.from?.rateNPerM, springs.to?.rateNPerM);
  const another = springs.to !== springs.from && springs.to?.exchanged === true;
  return {
    slideRise: riseRatio(from, to),
    // Length and coils tell a cut spring's rate from the one it was cut from, and nothing of another spring's.
    springRate: measured ?? (another ? null : springRatio(from, to)),
  };
}

function measuredRatio(from: number | null | undefined, to: number | null | undefined): Ratio | null {
  if (!from || !to) return null;
  return {
    value: to / from,
    because: [
      {
        fact: `${from} to ${to} N/m`,
        from: "rates as described",
        effect: `rate x ${(to / from).toFixed(2)}`,
      },
    ],
    firmness: "firm",
  };
}
