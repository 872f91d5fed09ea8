import type { Correction } from "./rideTypes";

/** Combinations that are made as one change, with the reason. Source: common practice. */
const TOGETHER = [
  {
    first: ["clipPosition", "needleShimBelowMm"],
    along: "mixtureScrewTurns",
    why: "One step of the needle, then the screw: from an eighth to a quarter both act, and the needle moves the idle mixture a little",
  },
  {
    first: ["pilotJet"],
    along: "mixtureScrewTurns",
    why: "A pilot jet and the screw stand in line: the screw is set anew with the jet",
  },
] as const;

/** Practised combinations among ranked corrections that go the same way and need no measurement first. */
export function practisedTogether(ranked: readonly Correction[]): readonly Correction[] {
  return TOGETHER.flatMap(({ first, along, why }): Correction[] => {
    const lead = ranked.find((c) => (first as readonly string[]).includes(c.setting));
    const screw = ranked.find((c) => c.setting === along);
    if (!lead || !screw || lead.direction !== screw.direction) return [];
    if (lead.to === null || screw.from === null || screw.to === null) return [];
    if (lead.needsMeasurement || screw.needsMeasurement) return [];
    return [
      {
        ...lead,
        score: (lead.score + screw.score) / 2,
        also: [{ setting: screw.setting, from: screw.from, to: screw.to }],
        because: [{ fact: why, from: "common practice" }, ...lead.because, ...screw.because],
      },
    ];
  }).slice(0, 1);
}
