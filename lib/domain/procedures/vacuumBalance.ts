import { circle, edge, fuel, gauge, level, line, measured, middle, rect, solid } from "./drawing";
import { HOT, MAKER, type Procedure, RUNNING } from "./procedure";

const CARBURETTORS = [40, 120, 200, 280] as const;
/** Heights of the four columns: the drawing's own, for a rack that is not balanced yet. */
const COLUMNS = [34, 46, 30, 52] as const;

export const VACUUM_BALANCE: Procedure = {
  id: "vacuum-balance",
  name: "Vacuum balance of twins and fours",
  measures: ["vacuumSpreadKpa"],
  instrument: "Vacuum gauges or columns on the balance taps, all of one make, damped until they stand still",
  resolution: "1 hPa, or 1 mmHg (1.3 hPa)",
  readings:
    "All carburettors at once, at the same idle. Read, snap the throttle once, let it settle, read again: the second counts. Read anew after each screw.",
  before: [
    "Valve clearance, mixture screws and float levels are done: a valve that is tight or a leaking boot reads as imbalance.",
    "All gauges read the same on one tap: swap the hoses once and look.",
    "The engine is warm, the choke fully off, and the fuel fed from the tank or a bottle made for it.",
  ],
  steps: [
    "Join the gauges to the taps, start, and set the idle that the maker names.",
    "Enter all readings. The carburettor with the greater vacuum is the more closed one.",
    "Turn the screw that the product names, a little, snap the throttle, let it settle, and enter the readings again.",
    "When all stand in the band, set the idle, seal the taps, and listen for a leak.",
  ],
  kept: "Each reading stays with the bike and the job: the difference and the ratio of the least to the greatest, against the band that was wanted. A hold point of the step takes the difference once it lies inside.",
  cautions: [
    RUNNING,
    HOT,
    "A bottle that feeds the engine hangs fast and away from the header; its hose is clipped on both ends. Watch the temperature: a standing bike is not cooled by the ride.",
    MAKER,
  ],
  drawing: {
    title: "Vacuum balance of four carburettors",
    description:
      "Four carburettors in a row with a vacuum column above each, standing at different heights. Screw A stands between 1 and 2, screw B between 3 and 4, screw C between 2 and 3.",
    height: 226,
    strokes: [
      ...CARBURETTORS.flatMap((x, at) => [
        edge(rect(x - 26, 130, 52, 50)),
        edge(circle(x, 155, 17)),
        edge(line(x - 12, 167, x + 12, 143)),
        gauge(rect(x - 6, 24, 12, 78)),
        gauge(line(x, 102, x, 130)),
        fuel(rect(x - 5, 102 - (COLUMNS[at] ?? 0), 10, COLUMNS[at] ?? 0)),
        level(line(x - 6, 102 - (COLUMNS[at] ?? 0), x + 6, 102 - (COLUMNS[at] ?? 0))),
      ]),
      ...[80, 160, 240].map((x) => solid(circle(x, 160, 6))),
      edge(line(66, 160, 94, 160), line(146, 160, 174, 160), line(226, 160, 254, 160)),
    ],
    labels: [
      ...CARBURETTORS.map((x, at) => middle(x, 196, String(at + 1))),
      measured(middle(80, 146, "A")),
      measured(middle(160, 146, "C")),
      measured(middle(240, 146, "B")),
      middle(160, 216, "first A, then B, last C: pair against pair"),
      middle(160, 14, "vacuum, all read at once"),
    ],
  },
};
