/** Files that are tried together, and the tests that know them. */
export interface Part {
  /** Names without ".ts"; absent: all files of the folder that no other part names. */
  readonly files?: readonly string[];
  /** Test files in tests/domain; "*" stands for anything. */
  readonly tests: readonly string[];
}

/**
 * The folders of lib/domain that are tested by mutation. A mutant is tried by the tests of its part alone, so that a folder's run
 * ends: what only a distant test would notice counts as living.
 */
export const SUBJECTS: Readonly<Record<string, readonly Part[]>> = {
  money: [{ tests: ["money*", "epc-code"] }],
  tax: [{ tests: ["tax*"] }],
  air: [{ tests: ["air*"] }],
  labour: [{ tests: ["labour*"] }],
  schedule: [{ tests: ["schedule*", "reminder", "boardMove", "load"] }],
  pricing: [{ tests: ["pricing*"] }],
  stock: [{ tests: ["stock*", "arrival", "labelFiles"] }],
  plan: [{ tests: ["plan*", "whileOpen"] }],
  tuning: [
    {
      files: [
        "breathing",
        "fuels",
        "jets",
        "needle",
        "needleProfile",
        "slide",
        "slideRise",
        "spring",
        "springCut",
        "springShape",
        "venturi",
      ],
      tests: ["tuning-tables", "tuning-ranges", "tuning-parts", "tuning-springs"],
    },
    {
      files: [
        "airSide",
        "circuits",
        "cutaway",
        "fuelCurve",
        "machine",
        "needleHeight",
        "regions",
        "slideFacts",
        "fittedSpring",
      ],
      tests: [
        "tuning-model",
        "tuning-sheets",
        "tuning-springs",
        "tuning-pieces",
        "tuning-byHand",
        "tuning-curve",
        "tuning-machine",
        "flowFigures",
        "modelledParts",
        "partChange",
      ],
    },
    {
      files: ["standIns", "station", "volumetric", "pullText"],
      tests: ["tuning-model", "tuning-sheets", "tuning-choices", "tuning-pieces", "tuning-station"],
    },
    {
      files: ["dyno", "gainTest", "power", "studentT"],
      tests: ["tuning-dyno", "tuning-studentT", "tuning-parts"],
    },
    {
      files: [
        "build",
        "correction",
        "correctionStep",
        "feltOpenings",
        "lambdaLog",
        "logObservations",
        "practised",
        "ruleOut",
        "settings",
        "steadyReading",
        "symptomTable",
        "symptoms",
        "unseen",
      ],
      tests: ["tuning-rides", "tuning-symptoms", "tuning-settings", "correctionStep"],
    },
    { files: ["modelCardFacts", "modelFacts"], tests: ["modelFacts"] },
    {
      files: ["complaints", "firstLook", "measurables", "wearLimits"],
      tests: ["intake", "measured", "tuning-rides"],
    },
    {
      files: ["nextCheck", "runAnswers", "sameThread", "severity", "wear"],
      tests: ["severity", "sameThread", "measured", "tuning-rides", "tuning-answers", "tuning-checks"],
    },
    {
      files: ["describedParts", "flowFigures", "modelledParts", "partChange", "workedParts"],
      tests: ["describedParts", "flowFigures", "modelledParts", "partChange"],
    },
    {
      files: [
        "needleAsked",
        "needlePoints",
        "needlePosition",
        "needleReadings",
        "needleRecord",
        "needleTarget",
        "needleWork",
        "mainAndNeedle",
      ],
      tests: ["needles", "needleReadings", "needlePieces", "tuning-carburettor"],
    },
    {
      files: [
        "changes",
        "choose",
        "densityJet",
        "jetChoice",
        "jetLimits",
        "jetNote",
        "jetQuestion",
        "jetStep",
        "mechanical",
        "ratios",
        "solve",
        "targetGaps",
      ],
      tests: ["tuning-choices", "tuning-questions", "tuning-sheets", "tuning-pieces", "tuning-altitude"],
    },
    {
      files: [
        "calibrate",
        "calibrationPoint",
        "expectedLog",
        "heard",
        "information",
        "lesson",
        "narrowing",
        "posterior",
        "ridden",
        "smallMatrix",
        "spreads",
      ],
      tests: ["tuning-lessons", "tuning-measured", "modelledParts"],
    },
    { files: ["unknownCases"], tests: ["unknownCases", "tuning-model"] },
    {
      files: ["screw", "targetList", "tradeRules"],
      tests: ["tuning-sheets", "targetReasons", "tuning-choices"],
    },
    {
      tests: [
        "tuning-sheets",
        "tuning-target",
        "tuning-carburettor",
        "tuning-answers",
        "tuning-altitude",
        "tuning-pieces",
        "tuning-questions",
        "tuning-choices",
        "targetReasons",
        "needles",
        "partChange",
      ],
    },
  ],
};

/** Simulations that take too long to run for each mutant. */
export const TOO_LONG: readonly string[] = ["tuning-coverage", "tuning-gain"];
