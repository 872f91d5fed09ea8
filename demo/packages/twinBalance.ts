import type { Recipe } from "@/lib/domain/packages/recipe";
import { access, operation, option } from "@/lib/domain/packages/writing";
import { JIS, pieces } from "./parts";

const PAIR = "Both carburettors alike, left first.";

/** Two carburettors made alike, jetted and balanced. */
export const TWIN_BALANCE: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [
    { key: "balance", name: "Balance", choose: "exactly one" },
    { key: "jets", name: "Jets", choose: "any" },
    { key: "care", name: "Care", choose: "any" },
  ],
  options: [
    option(
      "balance",
      "balance",
      "Vacuum balance",
      "Both sides pull alike at idle and just off it.",
      ["balance"],
      {
        changes: [{ setting: "idleSpeedRpm", change: "set", value: 1150 }],
        preset: true,
      },
    ),
    option(
      "balance-full",
      "balance",
      "Vacuum balance and screws",
      "Balance, then each mixture screw set hot.",
      ["balance", "screws"],
      {
        changes: [
          { setting: "mixtureScrewTurns", change: "computed" },
          { setting: "idleSpeedRpm", change: "set", value: 1150 },
        ],
        roadUse: true,
      },
    ),
    option("mains", "jets", "Main jets, pair", "A matched pair for your height and season.", ["fit-mains"], {
      parts: [{ kind: "jet", setting: "mainJet", family: "Main jets, large round", quantityMilli: 2000 }],
      changes: [{ setting: "mainJet", change: "computed" }],
      preset: true,
      roadUse: true,
    }),
    option(
      "pilots",
      "jets",
      "Pilot jets, pair",
      "Cures the cough at small throttle on this twin.",
      ["fit-pilots"],
      {
        parts: [{ kind: "jet", setting: "pilotJet", family: "Pilot jets, short", quantityMilli: 2000 }],
        changes: [{ setting: "pilotJet", change: "set", value: 45 }],
        roadUse: true,
      },
    ),
    option("floats", "care", "Float heights, both", "Measured and set alike.", ["floats"], { preset: true }),
    option(
      "slides",
      "care",
      "Slides and diaphragms looked over",
      "Guides inspected, diaphragms held to the light.",
      ["slides"],
    ),
    option(
      "rubbers",
      "care",
      "Intake rubbers renewed",
      "Cracked rubbers let in air that no jet can make good.",
      ["rubbers"],
      { parts: [pieces("RUB-750", 2)] },
    ),
    option("plugs", "care", "Spark plugs, pair", "New plugs, gapped, fixed price.", ["plugs"], {
      fixedPriceMinor: 6_800,
      parts: [pieces("PLUG-8", 2)],
    }),
  ],
  operations: [
    operation("slides", "Look over slides and diaphragms", PAIR, 24, ["rack-out"], {
      grade: "bench",
      holdPoints: [{ kind: "signature", name: "Both slides drop freely, no nick found" }],
      inspects: ["slideGuides"],
    }),
    operation("fit-mains", "Fit the main jets", PAIR, 14, ["bowls"], {
      grade: "bench",
      makes: ["mainJet"],
      after: ["floats"],
      holdPoints: [{ kind: "signature", name: "Both jet numbers read aloud" }],
      tools: [JIS, "Jet driver 6 mm"],
    }),
    operation("fit-pilots", "Fit the pilot jets", PAIR, 14, ["bowls"], {
      grade: "bench",
      makes: ["pilotJet"],
      after: ["floats"],
      holdPoints: [{ kind: "signature", name: "Both jet numbers read aloud" }],
    }),
    operation("floats", "Set the float heights", PAIR, 22, ["bowls"], {
      grade: "bench",
      parts: [pieces("OR-BOWL-36", 2), { kind: "part", code: "CLEAN-C", quantityMilli: 60_000 }],
      holdPoints: [
        {
          kind: "reading",
          name: "Float height, left",
          unit: "mm",
          low: 14,
          high: 15,
          step: 0.5,
          measures: "floatHeightMm",
          carburettor: 1,
        },
        {
          kind: "reading",
          name: "Float height, right",
          unit: "mm",
          low: 14,
          high: 15,
          step: 0.5,
          measures: "floatHeightMm",
          carburettor: 2,
        },
      ],
      tools: ["Float gauge"],
    }),
    operation(
      "rubbers",
      "Renew the intake rubbers",
      "Clean faces, no sealant, clamps at the same clock.",
      16,
      ["rack-out"],
      { after: ["slides"] },
    ),
    operation("plugs", "Renew the spark plugs", "Cold engine. 0.8 mm gap, started by hand.", 12, ["tank"], {
      parts: [],
    }),
    operation(
      "balance",
      "Balance by vacuum",
      "Warm. Balance screw first, idle after, a snap, then read again.",
      24,
      ["running"],
      {
        grade: "bench",
        after: ["fit-mains", "fit-pilots", "floats", "slides", "rubbers", "plugs"],
        makes: ["idleSpeedRpm"],
        parts: [pieces("CAP-VAC", 2)],
        holdPoints: [
          { kind: "reading", name: "Difference at idle", unit: "kPa", low: 0, high: 1.5, step: 0.1 },
          {
            kind: "reading",
            name: "Idle, hot",
            unit: "rpm",
            low: 1100,
            high: 1200,
            step: 50,
            measures: "idleSpeedRpm",
          },
        ],
        tools: ["Vacuum gauges, pair"],
      },
    ),
    operation(
      "screws",
      "Set both mixture screws, hot",
      "One at a time, within half a turn; then balance once more.",
      16,
      ["running"],
      {
        grade: "bench",
        after: ["balance"],
        makes: ["mixtureScrewTurns"],
        holdPoints: [{ kind: "signature", name: "Turns out written down, left and right" }],
        tools: ["Lambda probe", "D-head screw key"],
      },
    ),
  ],
  accesses: [
    access("seat", "Seat off", 2, 2),
    access("tank", "Tank off", 9, 10, {
      needs: ["seat"],
      closingChecks: ["Both fuel hoses on and clipped", "Tank breather free"],
      cautions: ["Fuel vapour: no flame, no sparks. Extinguisher in reach."],
    }),
    access("rack-out", "Carburettors out as a rack", 18, 22, {
      openAs: "Take out: carburettors as a rack",
      closeAs: "Put back: carburettors as a rack",
      needs: ["tank"],
      closingChecks: [
        "Rubbers home, clamps even",
        "Throttle closes by itself at both locks",
        "Vent hoses on, not kinked",
      ],
      cautions: ["Do not lift the rack by one side: the link between them bends."],
      tools: [JIS, "Long ball-end key 5 mm"],
    }),
    access("bowls", "Both bowls off", 6, 8, {
      needs: ["rack-out"],
      closingChecks: ["Both O-rings in their grooves", "Fuel from the bottle two minutes, no drip"],
      cautions: ["Small cross heads here are JIS: the wrong driver burrs them."],
      tools: [JIS],
    }),
    access("running", "Engine running, extraction on", 4, 2, {
      openAs: "Start engine, extraction on",
      closeAs: "Stop engine",
      excludes: ["rack-out", "bowls"],
      cautions: [
        "Carbon monoxide: extraction on both silencers, doors open.",
        "Balance with a fan in front: it overheats standing.",
      ],
      tools: ["Extraction hose", "Fan", "Auxiliary fuel bottle"],
    }),
  ],
  rules: [
    {
      kind: "only when",
      option: "mains",
      fact: "carburettors",
      op: "=",
      value: 2,
      why: "This package is for a pair.",
    },
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
      option: "balance-full",
      fact: "carburettors",
      op: ">=",
      value: 2,
      why: "One carburettor has nothing to be balanced with.",
    },
    {
      kind: "warns",
      option: "pilots",
      with: "balance",
      why: "New pilot jets move the screws: take the balance with screws.",
    },
    { kind: "warns", option: "mains", without: "floats", why: "Jets mean little while the floats differ." },
  ],
};
