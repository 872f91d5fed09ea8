import { cut, from, gauge, leader, line, measured, middle, rect, span } from "./drawing";
import { HOT, MAKER, type Procedure } from "./procedure";

export const HEADER_WELD: Procedure = {
  id: "header-weld",
  name: "Weld left standing inside a header",
  measures: ["headerWeldMm"],
  instrument: "Telescopic gauge with a caliper, or inside jaws as far as they reach",
  resolution: "0.1 mm; judge to 0.5 mm",
  readings:
    "Three bores behind the weld and three between the weld's crests, turned by a third; half the difference of the two means counts.",
  before: ["The header is off the bike and cold."],
  steps: [
    "Look in with a lamp: is the bead even, or only a lump? Say which in the note.",
    "Read the clear bore of the pipe a little beyond the weld.",
    "Read the bore between the crests. Height = (pipe bore − bore at the weld) ÷ 2.",
    "Before you grind: how thick is the wall outside the weld? A weld ground flush may be the wall's only hold.",
  ],
  kept: "The height stands on the sheet. The pressure loss that it costs, and what grinding it back gives, are computed as an orifice in a pipe (Idelchik, from memory), and it is little on most singles.",
  cautions: [
    HOT,
    "Grinding dust of stainless steel harms the lungs: mask and extraction. Plug the port while the header is off.",
    MAKER,
  ],
  drawing: {
    title: "Weld left standing inside a header",
    description:
      "A header pipe cut lengthwise with a weld bead standing inward on both walls. The pipe's bore is read beside it, the narrower bore between the crests, and the bead's height follows.",
    height: 204,
    strokes: [
      cut(rect(16, 36, 288, 16), rect(16, 152, 288, 16)),
      cut("M138 52C142 78 178 78 182 52Z", "M138 152C142 126 178 126 182 152Z"),
      ...span(70, 52, 70, 152),
      gauge(line(160, 72, 160, 132), line(150, 72, 170, 72), line(150, 132, 170, 132)),
      leader(line(168, 71, 256, 71)),
      ...span(248, 52, 248, 71),
    ],
    labels: [
      measured(from(80, 106, "pipe")),
      measured(from(170, 106, "at the weld")),
      measured(from(258, 90, "height")),
      middle(160, 190, "half the difference is left standing"),
      from(16, 28, "cold, and off the bike"),
    ],
  },
};
