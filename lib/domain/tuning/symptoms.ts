import type { Reason } from "../reason";
import { Refusal } from "../refusal";
import type { Correction, Observation, RideReading } from "./rideTypes";
import { ruleOutFirst } from "./ruleOut";
import { type SettingDef, settingDef } from "./settings";
import { COLD_COUNTS, LEVERS, type Lever, MEANS, SNAP, SPECIAL, STEADY } from "./symptomTable";
import type { CarburettorType, SettingValues } from "./targetTypes";

/** What is fitted on the ride. `accepted`: settings that were last measured or accepted; steps leaner count from there. */
export interface RideSheet {
  readonly settings: SettingValues;
  readonly accepted?: SettingValues | undefined;
  readonly carburettorType?: CarburettorType | undefined;
}

interface Tally {
  up: number;
  down: number;
  readonly because: Reason[];
}

/**
 * Ranks corrections for a test ride's observations: setting pull at that opening x likelihood of lean or rich x ease;
 * "good" observations speak against touching what decides there. One change at a time. Refuses an empty list.
 * Source: common practice and judgement (symptomTable.ts).
 */
export function corrections(observations: readonly Observation[], sheet: RideSheet): RideReading {
  if (observations.length === 0)
    throw new Refusal("Nothing was observed.", "Enter at least one throttle position and what it did there.");
  const tallies = LEVERS.filter((l) => usable(l, sheet)).map((lever) => ({
    lever,
    tally: add(lever, observations),
  }));
  const ranked = tallies
    .flatMap(({ lever, tally }) => {
      const net = tally.up - tally.down;
      const score = Math.abs(net) * lever.ease;
      return score > 0.02 ? [correction(lever, net > 0 ? 1 : -1, score, tally.because, sheet)] : [];
    })
    .flat()
    .filter((c) => c !== null)
    .sort((a, b) => b.score - a.score);
  const top = Math.max(1, ranked[0]?.score ?? 1);
  return {
    corrections: ranked.map((c) => ({ ...c, score: c.score / top })),
    ruleOutFirst: ruleOutFirst(observations),
    unexplained: unexplained(observations, ranked.length),
  };
}

function usable(lever: Lever, sheet: RideSheet): boolean {
  return !(lever.key === "springLengthMm" && sheet.carburettorType === "mechanical");
}

/** Adds up a lever's case: `up` for a larger value, `down` for a smaller one. */
function add(lever: Lever, observations: readonly Observation[]): Tally {
  const tally: Tally = { up: 0, down: 0, because: [] };
  let good = 1;
  for (const o of observations) {
    const pull = pullOf(lever, o);
    if (pull === 0) continue;
    if (o.sign === "good") {
      good *= 1 - 0.7 * pull;
      continue;
    }
    const { lean, rich } = MEANS[o.sign];
    const counts = pull * (o.engine === "cold" ? COLD_COUNTS : 1);
    // Only lean snaps point at the slide's rise: a longer spring holds it down.
    const sense = lever.richer === 0 ? 1 : lever.richer;
    const toRicher = counts * lean;
    const toLeaner = lever.richer === 0 ? 0 : counts * rich;
    tally.up += sense > 0 ? toRicher : toLeaner;
    tally.down += sense > 0 ? toLeaner : toRicher;
    tally.because.push({
      fact: `${words(o)}: ${o.sign}${o.note ? ` (${o.note})` : ""}`,
      from: "test ride",
      effect: `${settingDef(lever.key)?.name ?? lever.key} decides ${Math.round(pull * 100)} % here${
        o.engine === "cold" ? ", cold engine counts less" : ""
      }`,
    });
  }
  tally.up *= good;
  tally.down *= good;
  return tally;
}

function pullOf(lever: Lever, o: Observation): number {
  if (o.condition === "snap") return SNAP[lever.key] ?? 0.7 * (STEADY[o.throttle][lever.key] ?? 0);
  return (SPECIAL[o.condition] ?? STEADY[o.throttle])[lever.key] ?? 0;
}

function correction(
  lever: Lever,
  sense: 1 | -1,
  score: number,
  because: readonly Reason[],
  sheet: RideSheet,
): Correction | null {
  const def = settingDef(lever.key);
  if (!def) return null;
  const from = sheet.settings[lever.key] ?? null;
  const to = from === null ? null : Number((from + sense * lever.step).toFixed(4));
  if (to !== null && (to < def.low || to > def.high)) return null;
  const leaner = lever.richer !== 0 && sense !== lever.richer;
  const measure = leaner ? measureFirst(lever, def, to, sheet) : "";
  return {
    setting: lever.key,
    from,
    to,
    unit: def.unit,
    direction: lever.richer === 0 ? (sense > 0 ? "up" : "down") : leaner ? "leaner" : "richer",
    score,
    because,
    firmness: "starting point",
    ...(measure ? { needsMeasurement: measure } : {}),
  };
}

/** What to measure before going leaner: always for the main jet, elsewhere beyond one step from the accepted value. */
function measureFirst(lever: Lever, def: SettingDef, to: number | null, sheet: RideSheet): string {
  if (lever.key === "mainJet") return "Measure lambda at full load before a leaner main jet.";
  const accepted = sheet.accepted?.[lever.key];
  if (to === null || accepted === undefined) return "";
  return Math.abs(to - accepted) > lever.step + 1e-9 && Math.sign(to - accepted) !== lever.richer
    ? `${def.name} would be more than one step leaner than the accepted ${accepted}: measure lambda there first.`
    : "";
}

function unexplained(observations: readonly Observation[], found: number): readonly string[] {
  const said: string[] = [];
  for (const a of observations)
    for (const b of observations)
      if (
        a.sign === "lean" &&
        b.sign === "rich" &&
        a.throttle === b.throttle &&
        a.condition === b.condition &&
        a.engine === b.engine
      )
        said.push(`${words(a)} is said to be both lean and rich.`);
  if (found === 0 && observations.some((o) => o.sign !== "good"))
    said.push("No single setting explains what was observed: look at the faults to rule out.");
  return said;
}

const PLACE = {
  closed: "Closed throttle",
  eighth: "An eighth",
  quarter: "A quarter",
  half: "Half",
  threeQuarter: "Three quarters",
  full: "Full throttle",
} as const;

function words(o: Observation): string {
  return `${PLACE[o.throttle]}, ${o.condition}, ${o.engine}`;
}
