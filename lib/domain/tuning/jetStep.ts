import { bothLaws } from "./densityJet";
import { chooseJet } from "./jetChoice";
import { jetLimits } from "./jetLimits";
import { type JetTask, jetQuestion } from "./jetQuestion";
import { jetAreaMm2, jetSizeForArea } from "./jets";
import { settingDef } from "./settings";
import type { Resolved } from "./station";
import { FULL_LOAD_WORDS } from "./steadyReading";
import type { JetChoice, TargetRefusal } from "./targetTypes";

/** Chooses a jet within what may be recommended unmeasured (jetLimits.ts); beyond, the refusal says what to measure. */
export function chooseWithinStep(
  t: JetTask,
  carburettor: string,
): { readonly choice: JetChoice; readonly refusal: TargetRefusal | null } {
  const q = jetQuestion(t);
  const choice = chooseJet(q);
  if (t.fitted === null) return { choice, refusal: null };
  const { low, high, density } = jetLimits(t, t.fitted);
  const because = [...q.because, ...bothLaws(density, q.exact, t.fitted, t.r.machine.type)];
  const wanted = equivalentSize(t.r, choice);
  if (wanted >= low && wanted <= high) return { choice: { ...choice, density, because }, refusal: null };
  const kept = chooseJet({ ...q, floor: low, ceiling: high });
  return {
    choice: { ...kept, density, because },
    refusal: heldBack(t.key, carburettor, choice.chosen.size, kept.chosen.size, t.fitted, density.size),
  };
}

/** What was held back, in words: how far it wanted to go, what is allowed meanwhile, what to measure. */
export function heldBack(
  setting: JetTask["key"],
  carburettor: string,
  wanted: number,
  allowed: number,
  fitted: number,
  byDensity: number,
): TargetRefusal {
  const name = settingDef(setting)?.name ?? setting;
  const leaner = wanted < fitted;
  const place = setting === "mainJet" ? `at full load (${FULL_LOAD_WORDS})` : "at idle, held for 2 seconds";
  const density = leaner && byDensity < fitted ? ` Air density alone asks for ${byDensity}.` : "";
  return {
    carburettor,
    setting,
    wanted,
    allowed,
    message: `${name} ${wanted} is more than one step ${leaner ? "leaner" : "richer"} than ${fitted}; nothing was measured.${density}`,
    remedy: `Fit ${allowed}, measure lambda ${place} in this air, then compute again.`,
  };
}

/** A chosen jet's size in the fitted numbering, for computing on. */
export function equivalentSize(r: Resolved, choice: JetChoice): number {
  return choice.convention === r.machine.convention
    ? choice.chosen.size
    : jetSizeForArea(jetAreaMm2(choice.chosen.size, choice.convention), r.machine.convention);
}
