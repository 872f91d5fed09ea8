import type { RiddenEvidence, RiddenOpening } from "./ridden";

/** What a customer may answer, some weeks after the work, to how the bike runs. */
export const RUN_ANSWERS = ["runsWell", "startsBadly", "hesitates", "tooHot", "muchFuel", "other"] as const;
export type RunAnswer = (typeof RUN_ANSWERS)[number];

/** Openings that an owner's weeks on the road speak of: neither idle nor full throttle is held there. Source: judgement. */
const ON_THE_ROAD = [0.25, 0.5] as const;

const felt = (sign: "lean" | "rich"): readonly RiddenOpening[] =>
  ON_THE_ROAD.map((throttle) => ({ throttle, sign }));

/**
 * What an owner's answer says of the mixture, as evidence without an instrument: a bike that runs well is on target where it is
 * ridden, one that runs hot is at least felt lean there, one that uses much fuel at least felt rich. Null for an answer that has
 * no one direction: bad starting is the enrichener's, the float's or the battery's, and hesitating is either. Source: judgement
 * after common practice.
 */
export function heardFrom(answer: RunAnswer): Pick<RiddenEvidence, "kind" | "at"> | null {
  if (answer === "runsWell") return { kind: "accepted", at: ON_THE_ROAD.map((throttle) => ({ throttle })) };
  if (answer === "tooHot") return { kind: "felt", at: felt("lean") };
  if (answer === "muchFuel") return { kind: "felt", at: felt("rich") };
  return null;
}
