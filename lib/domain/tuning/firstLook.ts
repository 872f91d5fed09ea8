import type { Observation, RuleOut } from "./rideTypes";
import { ruleOutFirst } from "./ruleOut";

export const PLUGS = ["tan", "white", "sooty", "oily", "wet"] as const;
export type Plug = (typeof PLUGS)[number];

/** What was measured of a cylinder before anything is changed; null where it was not. */
export interface CylinderLook {
  readonly compressionKpa: number | null;
  readonly leakDownPercent: number | null;
  readonly intakeClearanceMm: number | null;
  readonly exhaustClearanceMm: number | null;
  readonly plug: Plug | null;
}

/** A worn cylinder leaks more than this share. Source: common practice. */
const LEAKS = 20;
/** Cylinders of one engine differ by less than this share in compression. Source: common practice. */
const UNEVEN = 0.15;

/**
 * Faults to rule out before work is quoted: those that what was felt could come from, and those that a look at the engine showed,
 * the latter first. A clearance that was measured is said with the advice to compare it. Source: common practice.
 */
export function ruleOutBefore(
  observations: readonly Observation[],
  cylinders: readonly CylinderLook[],
): readonly RuleOut[] {
  const read = (key: keyof CylinderLook) =>
    cylinders.flatMap((one) => (typeof one[key] === "number" ? [one[key]] : []));
  const leaks = read("leakDownPercent").filter((share) => share > LEAKS);
  const pressures = read("compressionKpa");
  const most = Math.max(...pressures);
  const uneven = pressures.length > 1 && Math.min(...pressures) < most * (1 - UNEVEN);
  const oily = cylinders.some((one) => one.plug === "oily");
  const clearances = [...read("intakeClearanceMm"), ...read("exhaustClearanceMm")];
  return [
    ...(leaks.length > 0
      ? [
          {
            check: `Leak-down of ${leaks.join(" and ")} %: listen where it goes`,
            why: "no setting makes up for a leaking cylinder",
          },
        ]
      : []),
    ...(uneven
      ? [
          {
            check: `Compression of ${pressures.join(" and ")} kPa: find out why it differs`,
            why: "cylinders that differ cannot be set alike",
          },
        ]
      : []),
    ...(oily
      ? [
          {
            check: "Oil on the plug: rings, valve guides, breather",
            why: "an oiled plug looks and runs rich",
          },
        ]
      : []),
    ...ruleOutFirst(observations).map((one) =>
      one.check === "Valve clearance" && clearances.length > 0
        ? { ...one, check: `Valve clearance: ${clearances.join(", ")} mm read, compare with the model's` }
        : one,
    ),
  ];
}
