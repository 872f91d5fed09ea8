import { Refusal } from "../refusal";
import { applyChanges, valuesOf } from "../tuning/changes";
import { jetLimits } from "../tuning/jetLimits";
import { jetQuestion, jetReach } from "../tuning/jetQuestion";
import { clipLess } from "../tuning/needleTarget";
import type { SettingChange } from "../tuning/settingChange";
import { stationsFor } from "../tuning/solve";
import { resolve } from "../tuning/station";
import { workedParts } from "../tuning/workedParts";
import type { RecommendInput } from "./recommendTypes";

/** What the main jet must answer in one air, with everything else as `changes` sets it. Throws Refusal when no size meets the target there. */
export function mainQuestion(
  input: RecommendInput,
  changes: readonly SettingChange[],
  fitted: number,
  air: RecommendInput["baseline"],
) {
  const [given = { name: "", settings: {} }] = input.carburettors;
  const needle = given.needle ?? input.card.needle;
  const found = clipLess(given, needle);
  const asFound = valuesOf(found.settings);
  const worked = workedParts(input, found, asFound, applyChanges(found.settings, changes).values);
  const values = { ...worked.values, mainJet: fitted };
  const r = resolve(
    {
      card: input.card,
      carburettors: input.carburettors.length,
      settings: values,
      needle,
      ...worked.after,
      calibration: input.calibration,
      ...input.fuel?.now,
      reference: {
        settings: asFound,
        needle,
        ...worked.before,
        air: input.baseline,
        ...input.fuel?.found,
      },
    },
    air,
  );
  const task = {
    r,
    stations: stationsFor(r),
    key: "mainJet" as const,
    values,
    needle: r.now.needle,
    fitted,
    jets: input.jets,
    needed: input.carburettors.length,
  };
  const out = jetReach(task);
  if (out)
    throw new Refusal(
      `No main jet meets the target in every air: ${out}.`,
      "Check needle, needle jet and vents on the model card.",
    );
  const asked = jetQuestion(task);
  return { question: asked, exact: asked.exact, limits: jetLimits(task, fitted) };
}
