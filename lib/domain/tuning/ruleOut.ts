import type { Observation, RuleOut } from "./rideTypes";

const LEAN: readonly RuleOut[] = [
  { check: "Air leak at the intake boot, plugs and hoses", why: "it leans every small opening" },
  {
    check: "Fuel flow through filter, tap and hose",
    why: "the main runs lean when the bowl empties faster than it fills",
  },
  { check: "Float height, and clean fuel in the bowl", why: "low fuel in the bowl leans every opening" },
  { check: "Vent hoses free, not kinked", why: "a closed vent lowers the fuel signal" },
];
const RICH: readonly RuleOut[] = [
  { check: "Float level and float valve", why: "high fuel in the bowl enriches every opening" },
  { check: "Air filter clean", why: "a blocked filter enriches large openings" },
  { check: "Enrichener closes fully", why: "left open it is a second pilot jet" },
];
const SMALL: readonly RuleOut[] = [
  { check: "Valve clearance", why: "tight valves spoil idle and low running" },
  { check: "Ignition: plug, cap and timing", why: "a misfire feels like a wrong mixture" },
];
const SLIDE: RuleOut = {
  check: "Slide free, diaphragm whole",
  why: "a sticking slide or a nicked diaphragm spoils every snap",
};

/** Faults to rule out before a setting is changed, for what was observed. Source: common practice. */
export function ruleOutFirst(observations: readonly Observation[]): readonly RuleOut[] {
  const list: RuleOut[] = [];
  const trouble = observations.filter((o) => o.sign !== "good");
  if (trouble.some((o) => o.sign === "lean" || o.sign === "surges" || o.sign === "hesitates"))
    list.push(...LEAN);
  if (trouble.some((o) => o.sign === "rich" || o.sign === "floods")) list.push(...RICH);
  if (trouble.some((o) => o.condition === "snap")) list.push(SLIDE);
  if (trouble.length > 0) list.push(...SMALL);
  return list;
}
