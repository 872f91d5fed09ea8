import { cut, edge, from, gauge, leader, line, measured, middle, rect, span, until } from "./drawing";
import { FUEL, type Procedure } from "./procedure";

export const SLIDE_AND_GUIDE_PLAY: Procedure = {
  id: "slide-and-guide-play",
  name: "Slide and guide play",
  measures: ["guidePlayMm"],
  instrument: "Feeler leaves, or a dial gauge on the slide's face",
  resolution: "0.05 mm by leaves, 0.01 mm by a dial",
  readings:
    "Three at low lift and three at half lift, along the carburettor; the greatest counts: a slide wears where it is ridden most.",
  steps: [
    "Clean slide and guides: varnish hides play. Spring and needle are out.",
    "Hold the slide against the engine's side. Put in the thickest leaf that goes without force, on the airbox's side.",
    "With a dial: push the slide from stop to stop by a finger and read the difference.",
    "Look at the faces: a polished stripe on one side says that the slide tilts.",
  ],
  kept: "Held to the model card's limit and drawn over the bike's visits. Play leaks air past the slide and lets the needle wear its jet; no setting makes up for it.",
  cautions: [FUEL, "Steel leaves score soft guides: push them straight, never twist."],
  drawing: {
    title: "Slide and guide play",
    description:
      "A slide between its two guides, seen from above. It is held against one guide; a feeler leaf fills the gap at the other. From stop to stop is the play.",
    height: 206,
    strokes: [
      cut(rect(84, 44, 22, 130), rect(214, 44, 22, 130)),
      edge(rect(124, 60, 88, 98)),
      edge(line(124, 84, 212, 84), line(124, 134, 212, 134)),
      gauge(rect(112, 20, 6, 110)),
      leader(line(106, 174, 106, 192), line(124, 158, 124, 192)),
      ...span(106, 188, 124, 188),
    ],
    labels: [
      middle(168, 114, "slide"),
      until(78, 114, "guide"),
      from(244, 114, "engine"),
      middle(115, 14, "feeler leaf"),
      measured(from(132, 193, "play")),
    ],
  },
};
