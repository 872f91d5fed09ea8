import { chooseJet } from "./jetChoice";
import { type JetTask, jetQuestion } from "./jetQuestion";
import { jetAreaMm2, jetSizeForArea } from "./jets";
import { settingDef } from "./settings";
import type { Resolved } from "./station";
import type { JetChoice, TargetRefusal } from "./targetTypes";

/** Chooses a jet, at most one step smaller than the fitted one unless its region was measured; beyond, the refusal says so. */
export function chooseWithinStep(
  t: JetTask,
  carburettor: string,
): { readonly choice: JetChoice; readonly refusal: TargetRefusal | null } {
  const q = jetQuestion(t);
  const choice = chooseJet(q);
  const def = settingDef(t.key);
  const region = t.key === "mainJet" ? "main" : "pilot";
  if (t.fitted === null || !def || t.r.error[region].samples > 0) return { choice, refusal: null };
  const floor = t.fitted - def.step - 1e-9;
  if (equivalentSize(t.r, choice) >= floor) return { choice, refusal: null };
  const kept = chooseJet({ ...q, floor });
  return {
    choice: kept,
    refusal: {
      carburettor,
      setting: t.key,
      wanted: choice.chosen.size,
      allowed: kept.chosen.size,
      message: `${def.name} ${choice.chosen.size} is more than one step leaner than ${t.fitted}; nothing was measured.`,
      remedy: `Fit ${kept.chosen.size}, measure lambda ${
        region === "main" ? "at full load" : "at idle"
      } in this air, then compute again.`,
    },
  };
}

/** A chosen jet's size in the fitted numbering, for computing on. */
export function equivalentSize(r: Resolved, choice: JetChoice): number {
  return choice.convention === r.machine.convention
    ? choice.chosen.size
    : jetSizeForArea(jetAreaMm2(choice.chosen.size, choice.convention), r.machine.convention);
}
