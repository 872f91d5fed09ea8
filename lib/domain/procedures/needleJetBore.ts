import { circle, cut, edge, gauge, leader, line, measured, middle, rect, span } from "./drawing";
import type { Procedure } from "./procedure";

export const NEEDLE_JET_BORE: Procedure = {
  id: "needle-jet-bore",
  name: "Needle jet: bore and out of round",
  measures: ["needleJetBoreMm", "needleJetOvalityMm"],
  instrument: "Pin gauges in steps, or a small-hole gauge with a micrometer",
  resolution: "0.01 mm: the step of the pins",
  readings:
    "The largest pin that goes in by its own weight, twice. Out of round: along the carburettor and across it, three times each; the greater less the smaller of the two middle values.",
  steps: [
    "Wash the jet and blow it dry: varnish reads as a smaller bore. Wood or nylon in the bore, never wire.",
    "Try pins from the thin side upwards. The one that falls through is too thin, the one that must be pushed is too thick.",
    "Look at the rim against the light: a needle wears the jet on the engine's side, so the bore grows egg-shaped there.",
  ],
  kept: "Held to the model card's wear limit and drawn over the bike's visits. A bore that differs from the card changes the open ring around the needle, and so the fuel that is computed at part throttle.",
  cautions: ["Never force a pin: it widens the jet, and a jet cannot be put back."],
  drawing: {
    title: "Needle jet, bore and out of round",
    description:
      "At the left the end of a needle jet with its bore read along and across the carburettor. At the right the jet cut lengthwise with a pin gauge that falls in by its own weight.",
    height: 212,
    strokes: [
      edge(circle(90, 104, 72)),
      edge("M54 104A36 40 0 1 1 126 104A36 40 0 1 1 54 104Z"),
      ...span(54, 104, 126, 104),
      ...span(90, 64, 90, 144),
      leader(line(126, 104, 172, 104)),
      cut(rect(206, 66, 26, 112), rect(262, 66, 26, 112)),
      gauge(rect(235, 20, 24, 112)),
    ],
    labels: [
      measured(middle(90, 24, "across")),
      measured(middle(184, 98, "along")),
      middle(247, 14, "pin gauge"),
      middle(247, 198, "by its own weight"),
      middle(90, 198, "end of the jet"),
    ],
  },
};
