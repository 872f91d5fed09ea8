import {
  cut,
  edge,
  from,
  fuel,
  gauge,
  leader,
  level,
  line,
  measured,
  middle,
  rect,
  span,
  until,
} from "./drawing";
import { FUEL, MAKER, type Procedure, RUNNING } from "./procedure";

export const FLOAT_HEIGHT_BY_TUBE: Procedure = {
  id: "float-height-by-tube",
  name: "Fuel level by clear tube",
  measures: [],
  instrument: "Clear fuel-proof tube on the bowl's drain, and a steel rule",
  resolution: "0.5 mm",
  readings:
    "Three, the fuel shut off and opened again in between; the middle one counts. Each carburettor on its own.",
  before: ["The bike stands as it is ridden, upright and level.", "The float valve is clean and closes."],
  steps: [
    "Push the tube onto the drain and hold its free end above the carburettor, beside the bowl.",
    "Open the drain screw, then the fuel. Let it rise until it stands still.",
    "Read the level in the tube against the gasket face, on the carburettor's middle line, with the eye at its height.",
    "Close the fuel and the drain, lower the tube into the can, then take it off.",
  ],
  kept: "Write it in the card's finding or the sheet's note, with the model's own limit: a level is not the float height of the sheet, and the product never takes one for the other.",
  cautions: [FUEL, RUNNING, MAKER],
  drawing: {
    title: "Fuel level by clear tube",
    description:
      "A bowl cut open with fuel in it. A clear tube runs from the drain under the bowl up beside it; the fuel in the tube stands as high as in the bowl. The level is read from the gasket face downwards.",
    height: 214,
    strokes: [
      cut(rect(40, 40, 150, 26)),
      fuel(rect(52, 100, 126, 58)),
      edge("M46 66V150L58 162H172L184 150V66"),
      level(line(52, 100, 178, 100)),
      edge("M104 162V176H126V162"),
      gauge("M115 176V192C115 200 119 204 127 204H222C232 204 236 198 236 190V30"),
      gauge("M224 30H248"),
      level(line(184, 100, 262, 100)),
      leader(line(192, 66, 276, 66)),
      ...span(268, 66, 268, 100),
    ],
    labels: [
      middle(115, 58, "body"),
      middle(115, 132, "fuel"),
      from(6, 186, "drain"),
      measured(from(276, 88, "level")),
      until(316, 56, "gasket face"),
      middle(236, 22, "clear tube"),
      from(244, 130, "let it"),
      from(244, 146, "stand"),
    ],
  },
};
