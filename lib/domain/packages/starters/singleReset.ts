import type { Recipe } from "../recipe";
import { operation, option } from "../writing";
import { BOWL, CROSS, running, SEAT, SWUNG, TANK } from "./accesses";

const ONE_CARBURETTOR = {
  kind: "only when",
  fact: "carburettors",
  op: "=",
  value: 1,
  why: "This package is for one carburettor.",
} as const;

/** Jets and mixture screw of a single to suit altitude and season. Minutes are starting figures: common practice, no source. */
export const SINGLE_RESET: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [
    { key: "jets", name: "Jets", choose: "any" },
    { key: "idle", name: "Idle", choose: "any" },
  ],
  options: [
    option("main", "jets", "Main jet", "A main jet for the height and season you ride in.", ["fit-main"], {
      changes: [{ setting: "mainJet", change: "computed" }],
      preset: true,
      roadUse: true,
    }),
    option(
      "pilot",
      "jets",
      "Pilot jet",
      "For an engine that starts badly or hangs on the overrun.",
      ["fit-pilot"],
      {
        changes: [{ setting: "pilotJet", change: "computed" }],
        roadUse: true,
      },
    ),
    option(
      "screw",
      "idle",
      "Mixture screw and idle",
      "Set on the hot engine and written down in turns.",
      ["set-idle"],
      {
        changes: [
          { setting: "mixtureScrewTurns", change: "computed" },
          { setting: "idleSpeedRpm", change: "computed" },
        ],
        preset: true,
        roadUse: true,
      },
    ),
  ],
  operations: [
    operation(
      "fit-main",
      "Fit the main jet",
      "Stop as soon as the jet seats: brass threads strip easily.",
      10,
      ["bowl"],
      {
        makes: ["mainJet"],
        holdPoints: [{ kind: "signature", name: "Jet number read aloud off the part" }],
        tools: [CROSS, "Jet driver"],
      },
    ),
    operation(
      "fit-pilot",
      "Fit the pilot jet",
      "Use a blade that fills the slot: the brass is soft.",
      10,
      ["bowl"],
      {
        makes: ["pilotJet"],
        holdPoints: [{ kind: "signature", name: "Jet number read aloud off the part" }],
        tools: ["Pilot jet driver"],
      },
    ),
    operation(
      "set-idle",
      "Set mixture screw and idle, hot",
      "Within half a turn of where it starts; then the idle.",
      12,
      ["running"],
      {
        after: ["fit-main", "fit-pilot"],
        makes: ["mixtureScrewTurns", "idleSpeedRpm"],
        holdPoints: [
          {
            kind: "reading",
            name: "Idle, hot",
            unit: "rpm",
            low: 1100,
            high: 1600,
            step: 50,
            measures: "idleSpeedRpm",
          },
        ],
        tools: ["Lambda probe, or plug and ear"],
      },
    ),
  ],
  accesses: [SEAT, TANK, SWUNG, BOWL, running(["tank", "swung", "bowl"])],
  rules: [
    { ...ONE_CARBURETTOR, option: "main" },
    { ...ONE_CARBURETTOR, option: "pilot" },
    { ...ONE_CARBURETTOR, option: "screw" },
    { kind: "warns", option: "pilot", without: "screw", why: "A new pilot jet moves the screw: set it too." },
  ],
};
