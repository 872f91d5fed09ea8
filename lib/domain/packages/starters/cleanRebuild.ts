import type { Recipe } from "../recipe";
import { operation, option } from "../writing";
import { AIRBOX, BENCH, CROSS, FUEL, running, SEAT, TANK } from "./accesses";

/** A carburettor cleaned and rebuilt on the bench. Minutes are starting figures: common practice, no source. */
export const CLEAN_REBUILD: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [
    { key: "work", name: "Carburettor", choose: "exactly one" },
    { key: "more", name: "While it is out", choose: "any" },
  ],
  options: [
    option(
      "clean",
      "work",
      "Carburettor cleaned",
      "Taken apart, cleaned and measured; sound parts go back.",
      ["strip", "clean", "float", "set-idle"],
      { preset: true },
    ),
    option(
      "rebuild",
      "work",
      "Carburettor rebuilt",
      "Cleaned, and every seal, the float needle and its seat renewed.",
      ["strip", "clean", "renew-seals", "float", "set-idle"],
    ),
    option("hoses", "more", "Fuel and vent hoses renewed", "Old hoses harden, kink and leak.", ["hoses"]),
    option(
      "filter",
      "more",
      "Air filter looked at and cleaned",
      "A blocked filter makes every jet too large.",
      ["filter"],
      {
        preset: true,
      },
    ),
  ],
  operations: [
    operation(
      "strip",
      "Take the carburettor apart",
      "Lay parts out in order. Count the screw's turns down to its seat first.",
      20,
      ["bench"],
      {
        holdPoints: [
          {
            kind: "reading",
            name: "Mixture screw, turns to its seat",
            unit: "turns",
            low: 0,
            high: 5,
            step: 0.25,
          },
          { kind: "signature", name: "Jet numbers, clip and float needle written down" },
        ],
        cautions: [FUEL],
        tools: [CROSS, "Jet driver", "Parts tray"],
      },
    ),
    operation(
      "clean",
      "Clean bodies, passages and jets",
      "Every passage blown through and seen to be open. No wire in a jet.",
      40,
      ["bench"],
      {
        after: ["strip"],
        cautions: ["Solvent: gloves, glasses, air. Diaphragm and rubber parts stay out of it."],
        holdPoints: [{ kind: "signature", name: "Light seen through every jet and passage" }],
      },
    ),
    operation(
      "renew-seals",
      "Renew seals, float needle and seat",
      "Dry fit first. A drop of fuel, no grease, on the O-rings.",
      25,
      ["bench"],
      {
        after: ["clean"],
      },
    ),
    operation(
      "float",
      "Set the float height",
      "Tang just touching the needle, its spring not pressed in.",
      10,
      ["bench"],
      {
        after: ["clean", "renew-seals"],
        holdPoints: [
          {
            kind: "reading",
            name: "Float height",
            unit: "mm",
            low: 3,
            high: 35,
            step: 0.5,
            measures: "floatHeightMm",
          },
        ],
        tools: ["Float gauge"],
      },
    ),
    operation(
      "hoses",
      "Renew the hoses",
      "Cut to the old lengths. Vents end low, clear of chain and exhaust.",
      15,
      ["tank"],
    ),
    operation(
      "filter",
      "Clean the air filter",
      "By the filter's own instructions; dry and whole before it goes back.",
      12,
      ["airbox"],
    ),
    operation(
      "set-idle",
      "Set mixture screw and idle, hot",
      "Begin from the turns that were counted.",
      12,
      ["running"],
      {
        after: ["float", "hoses", "filter"],
        holdPoints: [
          {
            kind: "reading",
            name: "Idle, hot",
            unit: "rpm",
            low: 900,
            high: 1600,
            step: 50,
            measures: "idleSpeedRpm",
          },
          { kind: "signature", name: "No fuel seen outside after five minutes" },
        ],
      },
    ),
  ],
  accesses: [SEAT, TANK, AIRBOX, BENCH, running(["tank", "airbox", "bench"])],
  rules: [
    {
      kind: "only when",
      option: "clean",
      fact: "carburettors",
      op: "=",
      value: 1,
      why: "Its minutes are for one carburettor: copy it for a pair.",
    },
    {
      kind: "only when",
      option: "rebuild",
      fact: "carburettors",
      op: "=",
      value: 1,
      why: "Its minutes are for one carburettor: copy it for a pair.",
    },
  ],
};
