import type { Recipe } from "@/lib/domain/packages/recipe";
import { JIS, operation, option, pieces, SINGLE_ACCESSES } from "./parts";

/** A small package for any single: jets and screw to suit altitude and season, nothing cut. */
export const JET_RESET: Recipe = {
  format: "throttlewright-recipe",
  version: 1,
  groups: [
    { key: "main", name: "Main jet", choose: "at most one" },
    { key: "low", name: "Idle and low throttle", choose: "any" },
    { key: "care", name: "Care", choose: "any" },
  ],
  options: [
    option("main-round", "main", "Main jet, large round", "The main jet for the height and season you ride in.", ["fit-main"], {
      parts: [{ kind: "jet", setting: "mainJet", family: "Main jets, large round", quantityMilli: 1000 }],
      changes: [{ setting: "mainJet", change: "computed" }],
      preset: true,
      roadUse: true,
    }),
    option("main-hex", "main", "Main jet, hex", "The main jet for the height and season you ride in.", ["fit-main"], {
      parts: [{ kind: "jet", setting: "mainJet", family: "Main jets, hex", quantityMilli: 1000 }],
      changes: [{ setting: "mainJet", change: "computed" }],
      preset: true,
      roadUse: true,
    }),
    option("pilot", "low", "Pilot jet to suit", "For a bike that starts badly or hangs on the overrun.", ["fit-pilot"], {
      parts: [{ kind: "jet", setting: "pilotJet", family: "Pilot jets, slim", quantityMilli: 1000 }],
      changes: [{ setting: "pilotJet", change: "computed" }],
      roadUse: true,
    }),
    option("screw", "low", "Mixture screw and idle", "Set hot by ear and lambda, written down in turns.", ["set-idle"], {
      changes: [
        { setting: "mixtureScrewTurns", change: "computed" },
        { setting: "idleSpeedRpm", change: "computed" },
      ],
      preset: true,
      roadUse: true,
    }),
    option("bowl", "care", "Bowl and float", "Bowl cleaned, float height measured, new O-ring.", ["clean-bowl"], { preset: true }),
    option("vents", "care", "Vent hoses renewed", "Old hoses kink when the carburettor is turned.", ["renew-vents"]),
  ],
  operations: [
    operation("clean-bowl", "Clean the bowl, measure the float", "Water and grit out. Float on its tang, not pressing the needle.", 14, ["bowl"], {
      grade: "bench",
      parts: [pieces("OR-BOWL-40", 1), { kind: "part", code: "CLEAN-C", quantityMilli: 40_000 }],
      holdPoints: [{ kind: "reading", name: "Float height", unit: "mm", low: 12, high: 15, step: 0.5 }],
      tools: ["Float gauge"],
    }),
    operation("fit-main", "Fit the main jet", "Snug is not tight.", 10, ["bowl"], {
      grade: "bench",
      after: ["clean-bowl"],
      holdPoints: [{ kind: "signature", name: "Jet number read aloud off the part" }],
      tools: [JIS, "Jet driver 6 mm"],
    }),
    operation("fit-pilot", "Fit the pilot jet", "Blade that fills the slot; it is soft brass.", 10, ["bowl"], {
      grade: "bench",
      after: ["clean-bowl"],
      holdPoints: [{ kind: "signature", name: "Jet number read aloud off the part" }],
      tools: ["Pilot jet driver 3 mm"],
    }),
    operation("renew-vents", "Renew the vent hoses", "Cut to length, ends down, clear of the chain.", 12, ["turned-left"], {
      parts: [{ kind: "part", code: "HOSE-V4", quantityMilli: 900_000 }],
    }),
    operation("set-idle", "Set mixture screw and idle, hot", "Within half a turn of where it starts; then the idle.", 12, ["running"], {
      grade: "bench",
      after: ["fit-main", "fit-pilot", "clean-bowl", "renew-vents"],
      holdPoints: [{ kind: "reading", name: "Idle, hot", unit: "rpm", low: 1250, high: 1500, step: 50 }],
      tools: ["Lambda probe", "D-head screw key"],
    }),
  ],
  accesses: SINGLE_ACCESSES,
  rules: [
    { kind: "only when", option: "main-round", fact: "jetConvention", op: "=", value: "bore", why: "Large round jets are numbered by bore." },
    { kind: "only when", option: "main-hex", fact: "jetConvention", op: "=", value: "flow", why: "Hex jets are numbered by flow." },
    { kind: "only when", option: "main-round", fact: "carburettors", op: "=", value: 1, why: "This package is for one carburettor." },
    { kind: "only when", option: "main-hex", fact: "carburettors", op: "=", value: 1, why: "This package is for one carburettor." },
    { kind: "only when", option: "screw", fact: "carburettors", op: "=", value: 1, why: "Two carburettors are balanced, not set one by one." },
    { kind: "warns", option: "pilot", without: "screw", why: "A new pilot jet moves the screw: set it too." },
  ],
};
