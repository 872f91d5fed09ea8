import { relativeAirDensity } from "../air/weather";
import { Refusal } from "../refusal";
import type { SettingChange } from "../tuning/settingChange";
import { targetSettings } from "../tuning/targetSheet";
import type { TargetInput, TargetSetting, TargetSheet } from "../tuning/targetTypes";
import { mainOver } from "./mainOver";
import type { CornerOutcome, NamedAir, Recommendation, RecommendInput } from "./recommendTypes";
import { settledOver } from "./settledOver";

/**
 * Recommends one setting for a bike after chosen changes, for one air or for the corners of a range. In one air it is the
 * target sheet. Over a range clip and screw are the richest that any corner asks for, the pilot jet stays as near to the fitted
 * as the corners let it, and the main jet is the size whose worst corner is least bad. Never more than one step leaner
 * than found without a measurement: see the sheet's refusals.
 * Throws Refusal for carburettors found unlike over a range, and what targetSettings throws. Source: targetSheet.ts, trip.ts.
 */
export function recommend(input: RecommendInput): Recommendation {
  const [first] = input.airs;
  if (!first) throw new Refusal("No air is given.", "Say for which altitude and weather.");
  const sheetIn = (at: NamedAir, changes = input.changes) => targetSettings(sheetInput(input, at, changes));
  const each = input.airs.map((at) => sheetIn(at));
  const [only] = each;
  if (each.length === 1 && only) return { sheet: only, corners: outcomes(input, [only]), worst: first };
  demandAlike(input);
  const over = settledOver(each);
  const settled: SettingChange[] = over.map(({ key, value }) => ({ setting: key, change: "set", value }));
  const wantsMain = input.changes.some((c) => c.setting === "mainJet" && c.change === "computed");
  const given = input.changes.filter((c) => c.change !== "computed");
  const main = wantsMain ? mainOver(input, [...given, ...settled]) : null;
  const changes: SettingChange[] = [
    ...given,
    ...settled,
    ...(main ? [{ setting: "mainJet" as const, change: "set" as const, value: main.chosen.size }] : []),
  ];
  const corners = input.airs.map((at) => sheetIn(at, changes));
  const worst =
    input.airs.find((at) => at.name === main?.chosen.worst) ?? leastSure(input.airs, corners) ?? first;
  const sheet = sheetIn(worst, changes);
  const reasons = new Map(over.map((s) => [s.key, s]));
  return {
    sheet: {
      ...sheet,
      carburettors: sheet.carburettors.map((c) => ({
        ...c,
        mainJet: main && c.mainJet ? { ...c.mainJet, ...main.choice(c.mainJet) } : c.mainJet,
        settings: c.settings.map((s) =>
          s.key === "mainJet" && main ? { ...s, because: main.because } : explained(s, reasons.get(s.key)),
        ),
      })),
      warnings: sheet.warnings.filter((w) => w.rule !== "leaner by hand"),
      refusals: [
        ...new Map(
          [
            ...each.flatMap((s) =>
              s.refusals.filter((r) => over.some((o) => o.key === r.setting && o.value === r.allowed)),
            ),
            ...(main?.refusals ?? []),
          ].map((r) => [r.setting + r.carburettor, r]),
        ).values(),
      ],
    },
    corners: outcomes(input, corners),
    worst,
  };
}

function sheetInput(input: RecommendInput, at: NamedAir, changes: readonly SettingChange[]): TargetInput {
  const { airs: _, ...rest } = input;
  return { ...rest, changes, now: at.air };
}

function demandAlike({ carburettors }: RecommendInput): void {
  const kinds = new Set(carburettors.map((c) => JSON.stringify([c.settings, c.needle, c.parts])));
  if (kinds.size > 1)
    throw new Refusal(
      "The carburettors were found unlike each other: no one setting serves a range.",
      "Choose one air, or set them alike first and record that.",
    );
}

function explained(s: TargetSetting, over: TargetSetting | undefined): TargetSetting {
  return over ? { ...s, because: over.because, firmness: over.firmness } : s;
}

function leastSure(airs: readonly NamedAir[], sheets: readonly TargetSheet[]): NamedAir | undefined {
  const loss = sheets.map((s) => s.carburettors[0]?.mainJet?.chosen.loss ?? 0);
  return airs[loss.indexOf(Math.max(...loss))];
}

function outcomes(input: RecommendInput, sheets: readonly TargetSheet[]): readonly CornerOutcome[] {
  return input.airs.map(({ name, air }, i) => {
    const jet = sheets[i]?.carburettors[0]?.mainJet;
    return {
      name,
      air,
      density: relativeAirDensity(air, input.baseline),
      exact: jet?.exact ?? null,
      phiError: jet?.chosen.phiError ?? null,
      leanRisk: jet?.chosen.leanRisk ?? null,
    };
  });
}
