import type { Reason } from "../reason";
import { Refusal } from "../refusal";
import { correctionBy, type RideSheet } from "./correction";
import { usable } from "./correctionStep";
import { practisedTogether } from "./practised";
import type { Observation, RideReading } from "./rideTypes";
import { ruleOutFirst } from "./ruleOut";
import { settingDef } from "./settings";
import { COLD_COUNTS, LEVERS, type Lever, MEANS, pullOf } from "./symptomTable";

export type { RideSheet } from "./correction";

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
      return score > 0.02 ? [correctionBy(lever, net > 0 ? 1 : -1, score, tally.because, sheet)] : [];
    })
    .filter((c) => c !== null)
    .sort((a, b) => b.score - a.score);
  const together = practisedTogether(ranked);
  const top = Math.max(1, ranked[0]?.score ?? 1);
  return {
    corrections: [...ranked.slice(0, 1), ...together, ...ranked.slice(1)].map((c) => ({
      ...c,
      score: c.score / top,
    })),
    ruleOutFirst: ruleOutFirst(observations),
    unexplained: unexplained(observations, ranked.length),
  };
}

/** Adds up a lever's case: `up` for a larger value, `down` for a smaller one. */
function add(lever: Lever, observations: readonly Observation[]): Tally {
  const tally: Tally = { up: 0, down: 0, because: [] };
  let good = 1;
  for (const o of observations) {
    const pull = pullOf(lever.key, o);
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
      fact: observedText(o),
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

/** An observation in words: “A quarter, steady, hot: lean (in your words)”. */
export function observedText(o: Observation): string {
  return `${words(o)}: ${o.sign}${o.note ? ` (${o.note})` : ""}`;
}

function words(o: Observation): string {
  return `${PLACE[o.throttle]}, ${o.condition}, ${o.engine}`;
}
