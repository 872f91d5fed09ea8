/** A fact of a model card: a number within limits in the unit its key names, or one of a few words. */
export interface ModelFactDef {
  readonly key: string;
  readonly group: FactGroup;
  readonly name: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly whole?: boolean;
  readonly choices?: readonly { readonly value: string; readonly name: string }[];
}

export type FactGroup =
  | "As delivered"
  | "Carburettor"
  | "Slide and spring"
  | "Needle"
  | "Engine and air"
  | "Wear limits";
export const FACT_GROUPS: readonly FactGroup[] = [
  "As delivered",
  "Carburettor",
  "Slide and spring",
  "Needle",
  "Engine and air",
  "Wear limits",
];

/** How a person may say they know a fact; "computed" is only ever said by the product. */
export const HOW_TYPED = ["measured", "read", "assumed"] as const;

type Row = readonly [key: string, name: string, unit: string, low: number, high: number, step: number];

const numbers = (group: FactGroup, rows: readonly Row[]): ModelFactDef[] =>
  rows.map(([key, name, unit, low, high, step]) => ({
    key,
    group,
    name,
    unit,
    low,
    high,
    step,
    ...(step >= 1 && Number.isInteger(low) && WHOLE.has(key) ? { whole: true } : {}),
  }));

const WHOLE = new Set([
  "deliveredClipPosition",
  "deliveredIdleSpeedRpm",
  "deliveredLiftHoleCount",
  "deliveredSnorkelFitted",
  "needleClipAt",
  "needleClips",
  "ratedRpm",
  "guideCheckKm",
  "filterCleanKm",
]);

const choice = (
  group: FactGroup,
  key: string,
  name: string,
  choices: readonly (readonly [string, string])[],
): ModelFactDef => ({
  key,
  group,
  name,
  unit: "",
  low: 0,
  high: 0,
  step: 1,
  choices: choices.map(([value, label]) => ({ value, name: label })),
});

/**
 * Every fact a model card may hold besides make, model, years, displacement, cylinders, carburettors and type.
 * Keys are those of ModelCardFacts in targetTypes.ts where it has them; the needle's shape is kept as numbers.
 * Limits: judgement, wide enough for single- to four-carburettor road and trail motorcycles.
 */
export const MODEL_FACTS: readonly ModelFactDef[] = [
  ...numbers("As delivered", [
    ["deliveredMainJet", "Main jet as delivered", "", 40, 300, 2.5],
    ["deliveredPilotJet", "Pilot jet as delivered", "", 10, 100, 2.5],
    ["deliveredClipPosition", "Clip position as delivered, from top", "", 1, 7, 1],
    ["deliveredScrewTurns", "Mixture screw as delivered", "turns out", 0, 6, 0.125],
    ["deliveredFloatHeightMm", "Float height as delivered", "mm", 0, 40, 0.5],
    ["deliveredLiftHoleCount", "Slide lift holes as delivered", "", 0, 4, 1],
    ["deliveredLiftHoleMm", "Slide lift hole as delivered", "mm", 0.5, 6, 0.1],
    ["deliveredNeedleSeatMm", "Needle seat height as delivered", "mm", 0, 10, 0.05],
    ["deliveredSlideCutawayMm", "Slide cutaway as delivered, mechanical slides", "mm", 0, 6, 0.5],
    ["deliveredSpringLengthMm", "Slide spring free length as delivered", "mm", 20, 250, 1],
    ["deliveredSpringCoils", "Slide spring active coils as delivered", "", 2, 60, 0.5],
    ["deliveredAirboxOpeningMm", "Airbox opening as delivered, 0 for none", "mm", 0, 120, 1],
    ["deliveredSnorkelFitted", "Snorkel as delivered, 1 fitted, 0 none", "", 0, 1, 1],
    ["deliveredHeaderWeldMm", "Header weld as delivered", "mm", 0, 10, 0.5],
    ["deliveredIdleSpeedRpm", "Idle speed as delivered", "rpm", 600, 3000, 50],
  ]),
  choice("Carburettor", "jetConvention", "Jet numbers are", [
    ["bore", "Bore in 1/100 mm"],
    ["flow", "Rated flow"],
  ]),
  choice("Carburettor", "ventedTo", "Bowl and diaphragm vented to", [
    ["atmosphere", "Open air"],
    ["airbox", "Airbox"],
    ["unknown", "Not known yet"],
  ]),
  ...numbers("Carburettor", [
    ["boreMm", "Carburettor bore", "mm", 10, 60, 0.5],
    ["needleJetMm", "Needle jet bore", "mm", 1, 6, 0.01],
  ]),
  ...numbers("Slide and spring", [
    ["diaphragmMm", "Diaphragm, working diameter", "mm", 20, 120, 0.5],
    ["slideMassG", "Slide mass", "g", 5, 300, 1],
    ["springRateNPerM", "Slide spring rate", "N/m", 1, 500, 1],
    ["springFreeMm", "Slide spring free length", "mm", 20, 250, 1],
    ["springCoils", "Slide spring active coils", "", 2, 60, 0.5],
    ["springInstalledMm", "Slide spring length, slide shut", "mm", 10, 200, 1],
    ["innerSpringRateNPerM", "Inner spring's rate, where there is one", "N/m", 1, 500, 1],
    ["innerSpringFreeMm", "Inner spring's free length", "mm", 10, 250, 1],
  ]),
  ...numbers("Needle", [
    ["needleStraightMm", "Needle diameter, straight part", "mm", 1, 6, 0.01],
    ["needleStraightLiftMm", "Slide lift where the taper begins to act", "mm", 0, 40, 0.5],
    ["needleStraightLengthMm", "Needle's straight part, length from the shoulder", "mm", 1, 80, 0.5],
    ["needleClipAt", "Clip groove that lift was measured in", "", 1, 7, 1],
    ["needleClipStepMm", "Distance between clip grooves", "mm", 0.3, 3, 0.05],
    ["needleClips", "Clip grooves, 0 for none", "", 0, 7, 1],
    ["needleTaper1LengthMm", "First taper, length", "mm", 0.5, 60, 0.5],
    ["needleTaper1Deg", "First taper, whole angle", "degrees", 0.1, 20, 0.05],
    ["needleTaper2LengthMm", "Second taper, length", "mm", 0.5, 60, 0.5],
    ["needleTaper2Deg", "Second taper, whole angle", "degrees", 0.1, 20, 0.05],
    ["needleTaper3LengthMm", "Third taper, length", "mm", 0.5, 60, 0.5],
    ["needleTaper3Deg", "Third taper, whole angle", "degrees", 0.1, 20, 0.05],
  ]),
  choice("Engine and air", "fuel", "Fuel", [
    ["E0", "Petrol without ethanol"],
    ["E10", "Petrol, 10 % ethanol"],
    ["E85", "Ethanol, 15 % petrol"],
  ]),
  ...numbers("Engine and air", [
    ["strokeMm", "Stroke", "mm", 20, 150, 0.5],
    ["ratedRpm", "Engine speed at rated power", "rpm", 2000, 20_000, 100],
    ["snorkelMm", "Snorkel, inside diameter", "mm", 5, 120, 1],
    ["snorkelHoleMm", "Hole left with the snorkel out", "mm", 5, 120, 1],
    ["openingBreatherMm", "Least distance of an opening from the breather", "mm", 0, 300, 5],
    ["headerMm", "Header pipe at the weld, inside diameter", "mm", 15, 80, 0.5],
  ]),
  ...numbers("Wear limits", [
    ["needleWearMm", "Needle worn when thinner by more than", "mm", 0.005, 0.5, 0.005],
    ["needleJetWearMm", "Needle jet worn when wider than", "mm", 1, 6, 0.005],
    ["needleJetOvalMm", "Needle jet worn when out of round by more than", "mm", 0.005, 0.5, 0.005],
    ["guidePlayMaxMm", "Slide guide worn when its play is more than", "mm", 0.05, 2, 0.05],
    ["springFreeMinMm", "Slide spring worn when shorter than", "mm", 20, 250, 0.5],
    ["guideCheckKm", "Slide guide inspected every", "km", 1000, 100_000, 1000],
    ["filterCleanKm", "Air filter, prefilter and breather filter cleaned every", "km", 100, 100_000, 500],
  ]),
];

/** The definition of a fact; undefined for a name that is no fact. */
export function modelFact(key: string): ModelFactDef | undefined {
  return MODEL_FACTS.find((fact) => fact.key === key);
}
