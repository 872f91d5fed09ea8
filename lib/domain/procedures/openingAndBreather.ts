import { circle, cut, edge, from, gauge, leader, line, measured, middle, rect, span } from "./drawing";
import type { Procedure } from "./procedure";

export const OPENING_AND_BREATHER: Procedure = {
  id: "opening-and-breather",
  name: "Airbox opening, and its distance from the breather",
  measures: ["airboxOpeningMm"],
  instrument: "Inside jaws of a caliper; a steel rule for the distance",
  resolution: "0.5 mm; distance 1 mm",
  readings:
    "Two diameters of each opening, at right angles; their mean counts. The distance once, edge to edge, at its shortest.",
  steps: [
    "Take the edge's burr off first, and hoover the box: swarf goes into the engine.",
    "Read each opening on its own. An oval one counts with the mean of its two diameters.",
    "Read the shortest distance from the opening's edge to the breather's mouth, along the wall.",
  ],
  kept: "The diameter stands on the sheet, each opening with its distance among the described openings. The airbox's flow, and the step of the main jet that it asks for, are computed from them; an opening nearer to the breather than the model card allows is said.",
  cautions: [
    "An opening beside the breather draws oil mist and water. More intake noise and other emissions: local law counts for the road.",
  ],
  drawing: {
    title: "Airbox opening and its distance from the breather",
    description:
      "An airbox lid from above with a round opening, read across, and the breather's small mouth beside it. The distance is read edge to edge at its shortest.",
    height: 206,
    strokes: [
      edge(
        "M30 30H290C296 30 300 34 300 40V160C300 166 296 170 290 170H30C24 170 20 166 20 160V40C20 34 24 30 30 30Z",
      ),
      edge(circle(102, 104, 48)),
      ...span(54, 104, 150, 104),
      cut(circle(240, 104, 16), circle(240, 104, 9)),
      ...span(150, 104, 224, 104),
      leader(line(240, 88, 240, 64)),
      gauge(line(54, 150, 54, 186), line(150, 150, 150, 186)),
      gauge(rect(54, 180, 96, 10)),
    ],
    labels: [
      measured(middle(102, 96, "across")),
      measured(middle(187, 96, "distance")),
      middle(240, 56, "breather"),
      from(160, 192, "inside jaws"),
      from(34, 50, "lid"),
    ],
  },
};
