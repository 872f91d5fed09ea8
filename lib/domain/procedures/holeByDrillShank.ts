import { arrow, cut, gauge, measured, middle, rect } from "./drawing";
import type { Procedure } from "./procedure";

export const HOLE_BY_DRILL_SHANK: Procedure = {
  id: "hole-by-drill-shank",
  name: "Hole diameter by drill shank",
  measures: ["liftHoleMm", "liftHoleCount"],
  instrument: "Plain shanks of a set of drills, or pin gauges; a micrometer to check the shank",
  resolution: "The step of the set: 0.1 mm",
  readings:
    "Two shanks for each hole: the largest that goes in and the next that does not. Twice, from both sides.",
  steps: [
    "Use the shank, never the fluted end: it cuts. Measure the shank itself, since sets are not true to their marks.",
    "Hold the slide to the light. Go upwards until a shank does not go in by its own weight.",
    "Write each hole down on its own: two holes of one slide are often not alike.",
  ],
  kept: "Number and diameter stand on the sheet, each hole with the described slide. Their area sets how fast the slide rises; before and after are shown as a ratio.",
  cautions: [
    "A burr makes a hole read small: take it off by hand, and wash the swarf out before anything goes back.",
  ],
  drawing: {
    title: "Hole diameter by drill shank",
    description:
      "A plate cut through with two holes alike. A thinner shank goes through the first; the next thicker shank stands on the second and does not go in.",
    height: 200,
    strokes: [
      cut(rect(20, 112, 60, 22), rect(102, 112, 98, 22), rect(222, 112, 78, 22)),
      gauge(rect(82, 40, 18, 130)),
      gauge(rect(199, 34, 24, 78)),
      ...arrow(54, 46, 54, 92),
    ],
    labels: [
      middle(91, 30, "3.0"),
      middle(211, 24, "3.1"),
      measured(middle(91, 190, "goes in")),
      measured(middle(211, 156, "stops")),
      middle(266, 104, "slide"),
    ],
  },
};
