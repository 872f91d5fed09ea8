import { arrow, circle, edge, from, gauge, leader, line, middle, rect, until } from "./drawing";
import { FUEL, type Procedure } from "./procedure";

export const DIAPHRAGM_BY_LIGHT: Procedure = {
  id: "diaphragm-by-light",
  name: "Diaphragm against the light",
  measures: ["diaphragmLights"],
  instrument: "A bright cold lamp behind the diaphragm, in a dark corner",
  resolution: "One point of light",
  readings:
    "Once round slowly, the fold spread between two fingers; a second time with the slide turned half round. The greater count counts.",
  steps: [
    "Lift the slide out with its diaphragm; hold it by the slide, never by the rubber.",
    "Hold the lamp behind the rubber, not in front of it: a hole shows as a point, a thin place as a glow.",
    "Spread the fold at the rim and at the slide gently: it cracks there first. Look at the bead and its tab too.",
  ],
  kept: "The number of points goes to the card; a hold point lets none pass (a diaphragm that lets light through is renewed: common practice, no source). It is drawn over the bike's visits.",
  cautions: [
    FUEL,
    "A cold lamp only: a hot bulb lights the fuel on the rubber. No brake cleaner and no thinner on rubber: it swells and does not go back into its groove.",
  ],
  drawing: {
    title: "Diaphragm against the light",
    description:
      "A slide with its diaphragm held over a lamp. Light comes through at one point of the fold, where there is a hole.",
    height: 208,
    strokes: [
      edge(
        "M40 118C40 104 52 104 60 104C76 104 72 84 92 84H128M280 118C280 104 268 104 260 104C244 104 248 84 228 84H192",
      ),
      edge(rect(128, 34, 64, 80)),
      gauge(circle(160, 170, 15)),
      gauge(
        line(160, 150, 160, 130),
        line(140, 158, 118, 138),
        line(180, 158, 202, 138),
        line(136, 172, 106, 172),
        line(184, 172, 214, 172),
      ),
      ...arrow(112, 134, 74, 66),
      leader(line(246, 60, 244, 92)),
    ],
    labels: [
      middle(160, 78, "slide"),
      middle(160, 202, "cold lamp, behind"),
      from(10, 56, "a point of light"),
      until(314, 50, "spread the fold"),
      until(314, 140, "bead"),
    ],
  },
};
