import { edge, from, gauge, leader, line, measured, middle, rect, span, spring } from "./drawing";
import type { Procedure } from "./procedure";

export const SPRING_LENGTH_AND_RATE: Procedure = {
  id: "spring-length-and-rate",
  name: "Spring: length, and rate on a scale",
  measures: ["springLengthMm", "springCoils"],
  instrument: "Steel rule or caliper; a kitchen scale and a rod that the spring slides on",
  resolution: "0.5 mm; 1 g on the scale",
  readings:
    "Free length three times, the spring turned in between; the middle one counts. Rate: at two lengths at least 20 mm apart, each three times.",
  steps: [
    "Stand the spring free on a flat plate and read its length without touching it. Count the coils that are not closed.",
    "For the rate, slide it over the rod on the scale, zero the scale, press it to one length with a flat bar and read grams.",
    "Press it to the second length and read again. Rate in N/m = 9.81 × difference in grams ÷ difference in millimetres.",
  ],
  kept: "Length and coils stand on the setting sheet, the rate with the described spring. From them follow the force at each lift and how fast the slide rises; a cut spring is computed from what it was.",
  cautions: ["A pressed spring flies: the rod goes through it, eyes behind glasses."],
  drawing: {
    title: "Spring length, and its rate on a scale",
    description:
      "At the left a spring stands free and its length is read. At the right the same spring is pressed to a known length on a kitchen scale, guided by a rod.",
    height: 214,
    strokes: [
      edge(spring(62, 30, 180, 36, 9)),
      edge(line(24, 180, 120, 180)),
      ...span(104, 30, 104, 180),
      leader(line(82, 30, 112, 30)),
      edge(spring(216, 74, 158, 36, 7)),
      gauge(rect(212, 40, 8, 118)),
      edge(rect(176, 64, 80, 10)),
      gauge("M172 158H260L272 190H160Z"),
      ...span(284, 74, 284, 158),
      leader(line(258, 74, 292, 74), line(262, 158, 292, 158)),
    ],
    labels: [
      measured(middle(104, 20, "free length")),
      middle(216, 32, "rod"),
      measured(middle(280, 58, "pressed")),
      middle(216, 180, "scale, g"),
      from(24, 198, "flat plate"),
    ],
  },
};
