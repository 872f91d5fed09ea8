import { circle, cut, edge, from, gauge, leader, line, measured, middle, rect, span, until } from "./drawing";
import { FUEL, type Procedure } from "./procedure";

export const FLOAT_HEIGHT_BY_GAUGE: Procedure = {
  id: "float-height-by-gauge",
  name: "Float height by gauge",
  measures: ["floatHeightMm"],
  instrument: "Float gauge or depth rod of a caliper, standing square on the gasket face",
  resolution: "0.5 mm by a float gauge, 0.1 mm by a caliper",
  readings:
    "Three at each float, the carburettor lifted in between; the middle one counts. On a twin float both sides.",
  steps: [
    "Take the bowl and its seal off. Hold the body so that the float's weight does not press its valve: tilted until the tang just touches the valve's sprung pin.",
    "Stand the gauge on the bare gasket face, at right angles to it, over the float's highest point.",
    "Read from the gasket face to the float. Bend only the tang, a little at a time, and read again.",
  ],
  kept: "On the setting sheet as the float height, found and left; a hold point holds it to its limits. It is a suspect whenever every opening is lean or rich together; no jet is computed from it.",
  cautions: [
    FUEL,
    "The sprung pin is not pushed in: a height read with it pressed floods the engine later. Plastic floats and their pivot posts break: press, never pull.",
  ],
  drawing: {
    title: "Float height by gauge",
    description:
      "A carburettor body upside down. The float hangs from its pivot over the gasket face, its tang just touching the valve's pin. A gauge stands on the gasket face and reads the height to the float's top.",
    height: 210,
    strokes: [
      cut(rect(24, 148, 236, 34)),
      cut(rect(44, 120, 12, 28)),
      edge(circle(50, 116, 4)),
      edge(
        "M50 112L92 106L130 106V84C130 76 136 72 144 72H206C214 72 220 76 220 84V124C220 132 214 136 206 136H144C136 136 130 132 130 124V106",
      ),
      edge(rect(84, 126, 12, 22)),
      edge(line(90, 110, 90, 126)),
      gauge("M242 148V56H196V72", "M234 148H260"),
      leader(line(90, 60, 90, 108)),
      ...span(284, 148, 284, 72),
      leader(line(222, 72, 292, 72), line(262, 148, 292, 148)),
    ],
    labels: [
      middle(175, 110, "float"),
      middle(142, 170, "body, upside down"),
      from(12, 52, "tang just touches"),
      until(316, 200, "from the bare gasket face"),
      measured(until(316, 62, "height")),
      middle(219, 46, "gauge"),
    ],
  },
};
