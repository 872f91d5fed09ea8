import type { Access, Operation, Option, Recipe } from "@/lib/domain/packages/recipe";

const access = (
  key: string,
  name: string,
  openMinutes: number,
  closeMinutes: number,
  needs: string[] = [],
): Access => ({
  key,
  name,
  openMinutes,
  closeMinutes,
  needs,
  excludes: [],
  closingChecks: key === "tilt" ? ["Vent hose on", "Vent hose not kinked"] : [],
  cautions: [],
  tools: [],
});

const operation = (
  key: string,
  name: string,
  minutes: number,
  accesses: string[],
  more: Partial<Operation> = {},
): Operation => ({
  key,
  name,
  instruction: `${name}.`,
  minutes,
  grade: "workshop",
  accesses,
  after: [],
  parts: [],
  holdPoints: [],
  inspects: [],
  cautions: [],
  tools: ["JIS no. 2"],
  ...more,
});

const option = (
  key: string,
  group: string,
  name: string,
  operations: string[],
  more: Partial<Option> = {},
): Option => ({
  key,
  group,
  name,
  plain: `${name}, in plain words.`,
  operations,
  parts: [],
  changes: [],
  cautions: [],
  preset: false,
  roadUse: false,
  ...more,
});

/** An invented package: an airbox opening with the jet to suit, a needle, a breather filter, and a fixed-price check. */
export const BREATHING: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [
    { key: "air", name: "Airbox", choose: "at most one" },
    { key: "fuel", name: "Carburettor", choose: "any" },
    { key: "care", name: "Care", choose: "any" },
  ],
  options: [
    option("opening", "air", "Airbox opening, 48 mm", ["cut"], {
      preset: true,
      roadUse: true,
      changes: [{ setting: "airboxOpeningMm", change: "set", value: 48 }],
      cautions: ["Louder on the intake side."],
    }),
    option("snorkel", "air", "Snorkel out only", ["snorkel"], {
      changes: [{ setting: "snorkelFitted", change: "set", value: 0 }],
    }),
    option("main", "fuel", "Main jet to suit", ["fit-main"], {
      preset: true,
      changes: [{ setting: "mainJet", change: "computed" }],
      parts: [{ kind: "jet", setting: "mainJet", family: "Round main", quantityMilli: 1000 }],
    }),
    option("needle", "fuel", "Needle reseated", ["needle"]),
    option("breather", "care", "Breather filter renewed", ["breather"], { preset: true }),
    option("check", "care", "Spark and valve check", ["check"], { fixedPriceMinor: 4_500 }),
  ],
  operations: [
    operation("cut", "Cut the opening", 28, ["seat"], { cautions: ["Eyes and lungs: goggles and mask."] }),
    operation("snorkel", "Take the snorkel out", 5, ["seat"]),
    operation("fit-main", "Fit the main jet", 10, ["bowl"], {
      holdPoints: [{ kind: "reading", name: "Float height", unit: "mm", low: 12, high: 13, step: 0.5 }],
    }),
    operation("needle", "Reseat the needle", 35, ["tilt"], { after: ["fit-main"] }),
    operation("breather", "Renew the breather filter", 6, ["seat"], {
      parts: [{ kind: "part", code: "BF-20", quantityMilli: 1000 }],
    }),
    operation("check", "Spark and valve check", 30, ["seat"]),
  ],
  accesses: [
    access("seat", "Seat and tank off", 9, 12),
    access("tilt", "Carburettor turned left", 5, 6, ["seat"]),
    access("bowl", "Bowl off", 3, 4, ["tilt"]),
  ],
  rules: [
    {
      kind: "needs",
      option: "opening",
      anyOf: ["main"],
      why: "A freer airbox runs lean on the delivered jet.",
    },
    {
      kind: "warns",
      option: "main",
      without: "opening",
      why: "A bigger main jet belongs with a freer airbox.",
    },
    {
      kind: "only when",
      option: "needle",
      fact: "carburettorType",
      op: "=",
      value: "constant vacuum",
      why: "It rides in the slide.",
    },
  ],
};
