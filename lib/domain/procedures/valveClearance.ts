import {
  circle,
  cut,
  edge,
  from,
  gauge,
  leader,
  line,
  measured,
  middle,
  rect,
  spring,
  until,
} from "./drawing";
import { HOT, MAKER, type Procedure } from "./procedure";

export const VALVE_CLEARANCE: Procedure = {
  id: "valve-clearance",
  name: "Valve clearance, before any mixture is judged",
  measures: [],
  instrument: "Feeler leaves",
  resolution: "0.01 to 0.02 mm: the step of the leaves",
  readings:
    "Two leaves for each valve: the thickest that drags lightly and the next that does not go. Turn the engine twice and read again.",
  before: ["The engine is cold: as cold as the maker's manual says, usually under 35 °C."],
  steps: [
    "Turn the engine by hand to the mark, with the cam's lobe pointing away from the valve that is read.",
    "Slide the leaf in straight, between rocker or cam and valve. It drags as through a closed book.",
    "Write every valve down as found, in and out, before one is set.",
  ],
  kept: "On the intake, for each cylinder. It is a precondition: a tight valve spoils idle and low running, so the product lists it among what to rule out before a setting is changed, and computes nothing from it.",
  cautions: [
    HOT,
    "The engine is turned by hand only, plug out and ignition off. A clearance set too tight burns the valve.",
    MAKER,
  ],
  drawing: {
    title: "Valve clearance",
    description:
      "A rocker on its shaft between a cam, whose lobe points away, and a valve stem. A feeler leaf lies between the rocker's adjuster and the stem.",
    height: 206,
    strokes: [
      edge(
        "M62 84C72 64 108 56 134 56H232C246 56 250 64 248 78H224C216 78 214 80 206 80H128C112 80 100 92 78 100Z",
      ),
      edge(circle(150, 68, 8)),
      edge(circle(76, 128, 26)),
      edge("M54 142C52 170 66 180 76 180C86 180 100 170 98 142"),
      edge(rect(230, 40, 14, 66)),
      gauge(rect(176, 108, 78, 5)),
      edge(rect(230, 115, 14, 70)),
      cut(rect(190, 178, 40, 10), rect(244, 178, 40, 10)),
      edge(spring(210, 126, 178, 18, 4), spring(264, 126, 178, 18, 4)),
      edge(line(198, 124, 276, 124)),
      leader(line(184, 106, 150, 96)),
    ],
    labels: [
      measured(middle(146, 110, "leaf")),
      until(316, 106, "valve"),
      middle(150, 46, "rocker"),
      middle(76, 132, "cam"),
      from(8, 200, "lobe points away"),
    ],
  },
};
