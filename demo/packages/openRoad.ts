import type { Recipe } from "@/lib/domain/packages/recipe";
import { access, option } from "@/lib/domain/packages/writing";
import { OPEN_ROAD_WORK } from "./openRoadWork";
import { pieces, SINGLE_ACCESSES } from "./parts";

const ROUND = "Main jets, large round";

/** Freer breathing for a big constant-vacuum single: airbox, jet, needle and slide as one recipe. */
export const OPEN_ROAD: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [
    { key: "air", name: "Airbox", choose: "at most one" },
    { key: "fuel", name: "Carburettor", choose: "any" },
    { key: "exhaust", name: "Exhaust", choose: "any" },
    { key: "care", name: "Care", choose: "any" },
  ],
  options: [
    option(
      "opening",
      "air",
      "Airbox opening, 48 mm",
      "One round opening, kept 60 mm clear of the breather. Fuller from half throttle; more intake noise.",
      ["cut-opening"],
      {
        changes: [{ setting: "airboxOpeningMm", change: "set", value: 48 }],
        cautions: ["The intake is louder, and the cut cannot be undone without a new box."],
        preset: true,
        roadUse: true,
      },
    ),
    option(
      "snorkel",
      "air",
      "Snorkel out only",
      "The snorkel comes out and the box stays whole: a small step that can be undone.",
      ["snorkel-out"],
      {
        changes: [{ setting: "snorkelFitted", change: "set", value: 0 }],
        roadUse: true,
      },
    ),
    option(
      "main",
      "fuel",
      "Main jet to suit",
      "The jet that the air you ride in asks for, with screw and idle set to go with it.",
      ["fit-main", "set-idle"],
      {
        parts: [
          { kind: "jet", setting: "mainJet", family: ROUND, quantityMilli: 1000, operation: "fit-main" },
        ],
        changes: [
          { setting: "mainJet", change: "computed" },
          { setting: "mixtureScrewTurns", change: "computed" },
          { setting: "idleSpeedRpm", change: "set", value: 1350 },
        ],
        preset: true,
        roadUse: true,
      },
    ),
    option(
      "needle",
      "fuel",
      "Needle reshaped and reseated",
      "The needle's shoulder is eased and it sits to a measured height: cleaner at quarter throttle.",
      ["needle-seat"],
      {
        changes: [
          { setting: "needleSeatMm", change: "set", value: 3.15 },
          { setting: "clipPosition", change: "computed" },
        ],
        preset: true,
        roadUse: true,
      },
    ),
    option(
      "lift",
      "fuel",
      "Slide lift holes, 2 × 2.8 mm",
      "Two holes let the slide rise in less than half the time: a quicker answer to the grip.",
      ["drill-lift"],
      {
        changes: [
          { setting: "liftHoleCount", change: "set", value: 2 },
          { setting: "liftHoleMm", change: "set", value: 2.8 },
        ],
        answers: ["snap"],
        preset: true,
      },
    ),
    option(
      "weld",
      "exhaust",
      "Header weld dressed",
      "The bead inside the header is taken down; a millimetre stays. We promise no power from it.",
      ["dress-weld"],
      {
        changes: [{ setting: "headerWeldMm", change: "set", value: 1 }],
        roadUse: true,
      },
    ),
    option(
      "silencer",
      "exhaust",
      "Quiet freer silencer",
      "A freer silencer with a quiet core, left and right mount.",
      ["fit-silencer"],
      {
        parts: [pieces("SIL-Q40", 1)],
        cautions: ["Noise rules apply to road use: keep the paper that came with it."],
        roadUse: true,
      },
    ),
    option("breather", "care", "Breather filter renewed", "Due with every air filter.", ["renew-breather"], {
      preset: true,
    }),
    option("air-filter", "care", "Air filter renewed", "New oiled foam, cage cleaned.", ["renew-filter"], {
      parts: [pieces("AF-580", 1)],
    }),
  ],
  operations: OPEN_ROAD_WORK,
  accesses: [
    ...SINGLE_ACCESSES,
    access("header", "Header pipe off", 14, 18, {
      excludes: ["running"],
      closingChecks: ["New gasket in, nuts even", "Joint felt by hand all round, no gap"],
      cautions: ["Let it cool: hot exhaust."],
      tools: ["12 mm socket, long", "Penetrating oil"],
    }),
  ],
  rules: [
    {
      kind: "needs",
      option: "opening",
      anyOf: ["main"],
      why: "A freer airbox runs lean on the delivered main jet.",
    },
    {
      kind: "needs",
      option: "silencer",
      anyOf: ["main"],
      why: "A freer silencer asks for the jet to be looked at.",
    },
    {
      kind: "warns",
      option: "main",
      without: "opening",
      why: "A bigger main jet belongs with a freer airbox.",
    },
    {
      kind: "warns",
      option: "needle",
      with: "opening",
      without: "main",
      why: "A reshaped needle on the delivered main jet wants only the snorkel out.",
    },
    {
      kind: "warns",
      option: "weld",
      without: "main",
      why: "A freer header on the delivered jet runs lean at full throttle.",
    },
    {
      kind: "only when",
      option: "lift",
      fact: "carburettorType",
      op: "=",
      value: "constant vacuum",
      why: "Lift holes are for a slide that rises by vacuum.",
    },
    {
      kind: "only when",
      option: "opening",
      fact: "displacementCc",
      op: ">=",
      value: 500,
      why: "48 mm is too much for a smaller engine.",
    },
    {
      kind: "only when",
      option: "main",
      fact: "carburettors",
      op: "=",
      value: 1,
      why: "This recipe is for a single carburettor.",
    },
  ],
};
