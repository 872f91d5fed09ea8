import type { Recipe } from "../recipe";
import { operation, option } from "../writing";
import { CROSS, RACK, running, SEAT, TANK } from "./accesses";

/** Two carburettors balanced by vacuum, floats set alike. Minutes are starting figures: common practice, no source. */
export const TWIN_BALANCE: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [
    { key: "balance", name: "Balance", choose: "exactly one" },
    { key: "care", name: "Care", choose: "any" },
  ],
  options: [
    option(
      "balance",
      "balance",
      "Vacuum balance",
      "Both cylinders pull alike at idle and just off it.",
      ["balance"],
      {
        preset: true,
      },
    ),
    option(
      "balance-screws",
      "balance",
      "Vacuum balance and mixture screws",
      "Balanced, then each mixture screw set hot.",
      ["balance", "screws"],
      { changes: [{ setting: "mixtureScrewTurns", change: "computed" }], roadUse: true },
    ),
    option("floats", "care", "Float heights, both", "Measured and set alike.", ["floats"]),
  ],
  operations: [
    operation(
      "floats",
      "Set both float heights",
      "Left first, then right to the same figure.",
      22,
      ["rack"],
      {
        holdPoints: [1, 2].map((carburettor) => ({
          kind: "reading" as const,
          name: `Float height, ${carburettor === 1 ? "left" : "right"}`,
          unit: "mm",
          low: 3,
          high: 35,
          step: 0.5,
          measures: "floatHeightMm",
          carburettor,
        })),
        tools: [CROSS, "Float gauge"],
      },
    ),
    operation(
      "balance",
      "Balance by vacuum",
      "Warm engine. Balance screw, then idle; a blip, then read again.",
      24,
      ["running"],
      {
        after: ["floats"],
        holdPoints: [
          {
            kind: "reading",
            name: "Difference at idle",
            unit: "kPa",
            low: 0,
            high: 2,
            step: 0.1,
            measures: "vacuumSpreadKpa",
          },
          {
            kind: "reading",
            name: "Idle, hot",
            unit: "rpm",
            low: 900,
            high: 1500,
            step: 50,
            measures: "idleSpeedRpm",
          },
        ],
        cautions: ["A standing engine overheats: a fan in front, and breaks."],
        tools: ["Vacuum gauges, pair", "Fan"],
      },
    ),
    operation(
      "screws",
      "Set both mixture screws, hot",
      "One at a time, within half a turn; then the balance once more.",
      16,
      ["running"],
      {
        after: ["balance"],
        makes: ["mixtureScrewTurns"],
        holdPoints: [{ kind: "signature", name: "Turns out written down, left and right" }],
      },
    ),
  ],
  accesses: [SEAT, TANK, RACK, running(["tank", "rack"])],
  rules: [
    {
      kind: "only when",
      option: "balance",
      fact: "carburettors",
      op: ">=",
      value: 2,
      why: "One carburettor has nothing to be balanced with.",
    },
    {
      kind: "only when",
      option: "balance-screws",
      fact: "carburettors",
      op: ">=",
      value: 2,
      why: "One carburettor has nothing to be balanced with.",
    },
    {
      kind: "warns",
      option: "balance",
      without: "floats",
      why: "A balance means little while the floats differ: measure them once.",
    },
  ],
};
