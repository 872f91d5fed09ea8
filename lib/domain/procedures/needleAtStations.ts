import { edge, from, gauge, leader, line, measured, middle, rect, solid, span, until } from "./drawing";
import type { Procedure } from "./procedure";

export const NEEDLE_AT_STATIONS: Procedure = {
  id: "needle-at-stations",
  name: "Needle at stations",
  measures: ["needleMm"],
  instrument: "Micrometer with a ratchet, and a caliper or a marked block for the distance along the needle",
  resolution: "0.01 mm; 0.001 mm where the micrometer has it. Distance 0.5 mm",
  readings:
    "At five stations or more, two of them on the straight part; at each twice, the needle turned a quarter: the smaller counts, since that side is worn.",
  steps: [
    "Wipe needle and anvils clean. Close the micrometer on nothing: it has to read zero.",
    "Measure distances from the underside of the shoulder, the same face every time.",
    "Close by the ratchet until it clicks, never by the drum: the taper slides away and reads thin.",
    "Mark where the polish begins: that is where the slide wears it.",
  ],
  kept: "Each station goes into the needle's record; the open ring around the needle, and with it the fuel over lift, is computed from it. A hold point at a station holds it to the model card's wear limit.",
  cautions: ["A needle bends in the fingers: carry it by the head. A bent one is renewed, not straightened."],
  drawing: {
    title: "Needle at stations",
    description:
      "A needle lying down: head with grooves, shoulder, straight part, taper. Stations are marked along it, counted from the shoulder; a micrometer closes on one of them.",
    height: 200,
    strokes: [
      edge(rect(18, 74, 38, 40)),
      edge(line(26, 74, 26, 114), line(34, 74, 34, 114), line(42, 74, 42, 114)),
      edge("M56 84H150L300 91V97L150 104H56"),
      leader(...[84, 124, 164, 244, 284].map((x) => line(x, 112, x, 122))),
      gauge(rect(196, 44, 18, 42), rect(196, 102, 18, 42)),
      gauge("M205 44V36H250V152H205V144"),
      leader(line(56, 116, 56, 166), line(205, 144, 205, 166)),
      ...span(56, 160, 205, 160),
      solid(rect(203, 85, 4, 1)),
    ],
    labels: [
      middle(37, 64, "head"),
      from(58, 72, "shoulder"),
      middle(226, 26, "micrometer"),
      until(316, 84, "taper"),
      middle(100, 138, "stations"),
      measured(middle(130, 184, "distance from the shoulder")),
    ],
  },
};
