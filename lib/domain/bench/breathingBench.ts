import { boxDepressionPa, effectiveOpeningM2, type Opening, weldLoss } from "../tuning/breathing";
import { seriesArea } from "../tuning/jets";
import type { VentCase } from "../tuning/station";
import { targetSettings } from "../tuning/targetSheet";
import type { SettingValues, Warning } from "../tuning/targetTypes";
import { VOLUMETRIC } from "../tuning/volumetric";
import type { BreathingBench, BreathingInput, BreathingState, VentAnswer } from "./breathingTypes";

/**
 * Airbox openings and header weld before and after: effective areas, depression at rated speed, weld loss, and what the main jet
 * wants in each vent case (the one known, else both). Throws OutOfRange for impossible measures.
 * Sources: continuity, Idelchik, Crane TP-410 (from memory); the jet is a starting point. About 1 mm of weld: common practice.
 */
export function breathingBench(input: BreathingInput): BreathingBench {
  const flowM3S = ((input.displacementCc * 1e-6 * input.ratedRpm) / 120) * VOLUMETRIC;
  const vented = input.card.ventedTo?.value ?? "unknown";
  const cases: readonly VentCase[] = vented === "unknown" ? ["atmosphere", "airbox"] : [vented];
  const answers = cases.map((at) => ventCase(input, at));
  return {
    flowM3S,
    before: stateOf(input, input.before, flowM3S),
    after: stateOf(input, input.after, flowM3S),
    vents: answers.map(({ warnings: _, ...answer }) => answer),
    warnings: [...new Map(answers.flatMap((a) => a.warnings).map((w) => [w.rule, w])).values()].filter(
      (w) => w.rule !== "assumed air",
    ),
    thinWeld: input.after.weldMm < 1 && input.after.weldMm < input.before.weldMm,
  };
}

function stateOf(input: BreathingInput, s: BreathingInput["before"], flowM3S: number): BreathingState {
  const openings: Opening[] = [
    s.snorkelIn
      ? { diameterMm: input.snorkelMm, kind: "reentrant" }
      : { diameterMm: input.snorkelHoleMm, kind: "wall" },
    { diameterMm: s.openingMm, kind: "wall" },
  ];
  const open = effectiveOpeningM2(openings);
  const through = input.filterLossPa ? seriesArea(open, filterAreaM2(input, flowM3S)) : open;
  return {
    openMm2: open * 1e6,
    boxPa: boxDepressionPa(flowM3S, through, input.air.densityKgM3),
    weldK: s.weldMm > 0 ? weldLoss(input.headerMm, s.weldMm) : 0,
  };
}

/** The opening that would lose as much as the filter does. Source: identity. */
function filterAreaM2(input: BreathingInput, flowM3S: number): number {
  return flowM3S * Math.sqrt(input.air.densityKgM3 / (2 * (input.filterLossPa ?? 1)));
}

function ventCase(
  input: BreathingInput,
  vented: VentCase,
): VentAnswer & { readonly warnings: readonly Warning[] } {
  const fact = <T>(value: T) => ({ value, how: "read" as const });
  const settings = (s: BreathingInput["before"]): SettingValues => ({
    mainJet: input.mainJet,
    snorkelFitted: s.snorkelIn ? 1 : 0,
    airboxOpeningMm: s.openingMm,
    headerWeldMm: s.weldMm,
  });
  const found = Object.fromEntries(
    Object.entries(settings(input.before)).map(([key, value]) => [key, fact(value)]),
  );
  const after = settings(input.after);
  const sheet = targetSettings({
    card: {
      ...input.card,
      displacementCc: fact(input.displacementCc),
      ratedRpm: fact(input.ratedRpm),
      snorkelMm: fact(input.snorkelMm),
      snorkelHoleMm: fact(input.snorkelHoleMm),
      headerMm: fact(input.headerMm),
      ventedTo: fact(vented),
    },
    carburettors: Array.from({ length: input.carburettors }, (_, i) => ({
      name: String(i + 1),
      settings: found,
    })),
    changes: [
      { setting: "snorkelFitted", change: "set", value: after.snorkelFitted ?? 1 },
      { setting: "airboxOpeningMm", change: "set", value: after.airboxOpeningMm ?? 0 },
      { setting: "headerWeldMm", change: "set", value: after.headerWeldMm ?? 0 },
      { setting: "mainJet", change: "computed" },
    ],
    now: input.air,
    baseline: input.air,
    jets: [],
  });
  const main = sheet.carburettors[0]?.mainJet ?? null;
  const power = main?.convention === "flow" ? 1 : 2;
  return {
    vented,
    main,
    areaChange: main ? (main.exact / input.mainJet) ** power - 1 : 0,
    warnings: sheet.warnings,
  };
}
