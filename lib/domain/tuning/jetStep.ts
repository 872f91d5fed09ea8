import type { Reason } from "../reason";
import { chooseJet, type JetQuestion } from "./jetChoice";
import { jetAreaMm2, jetSizeForArea } from "./jets";
import { settingDef } from "./settings";
import { errorOver, exactValue, jetBounds, type Stations } from "./solve";
import { logSigma, type Resolved } from "./station";
import type { JetChoice, JetOnHand, NeedleShape, SettingValues, TargetRefusal } from "./targetTypes";

export interface JetTask {
  readonly r: Resolved;
  readonly stations: Stations;
  readonly key: "mainJet" | "pilotJet";
  /** Everything fitted but this jet. */
  readonly values: SettingValues;
  readonly needle: NeedleShape;
  readonly fitted: number | null;
  readonly jets: readonly JetOnHand[];
  /** Carburettors that get the same jet. */
  readonly needed: number;
}

/** Asks for a jet: exact size, sigma of the change, reasons. Throws OutOfRange when no size reaches the target. */
export function jetQuestion(t: JetTask): JetQuestion {
  const { r, key } = t;
  const here = t.stations[key];
  const error = (size: number) => errorOver(r, here, { ...t.values, [key]: size }, t.needle);
  const unchanged = r.reference.settings[key] ?? r.machine[key];
  const needed = error(unchanged);
  const [low, high] = jetBounds(r, unchanged);
  const [station] = here;
  return {
    setting: key,
    convention: r.machine.convention,
    exact: exactValue(key, error, low, high),
    fitted: t.fitted,
    jets: t.jets,
    needed: t.needed,
    error,
    sigma: changeSigma(t, needed),
    lambdaSigma: station ? logSigma(r, station, needed) : 0,
    because: reasons(needed, r, key),
  };
}

/**
 * Sigma of what the change needs. The fitted jet was accepted, so what is uncertain is 30 % of the change (judgement), the
 * assumptions' share of it, the vent cases' difference, the air, and the calibration where there is one.
 */
function changeSigma(t: JetTask, needed: number): number {
  const { r, key } = t;
  const each = t.stations[key].length / r.vents.length;
  const cases = r.vents.map((_, i) =>
    errorOver(r, t.stations[key].slice(i * each, (i + 1) * each), t.values, t.needle),
  );
  const spread = (Math.max(...cases) - Math.min(...cases)) / 2;
  const measured = measuredSigma(r, key);
  const air = 0.5 * Math.hypot(r.now.air.sigma, r.reference.air.sigma);
  return Math.hypot(0.012, needed * 0.3, needed * r.machine.widen, spread, measured, air);
}

function measuredSigma(r: Resolved, key: "mainJet" | "pilotJet"): number {
  const e = r.error[key === "mainJet" ? "main" : "pilot"];
  return e.samples > 0 ? e.sigma : 0;
}

function reasons(needed: number, r: Resolved, key: "mainJet" | "pilotJet"): readonly Reason[] {
  const percent = Math.abs(Math.expm1(needed) * 100).toFixed(1);
  const where = key === "mainJet" ? "three quarters of throttle and more" : "closed throttle";
  return [
    {
      fact: `The fitted jet would run ${percent} % ${needed < 0 ? "lean" : "rich"} at ${where}`,
      from: "fuel model: air, breathing, slide and needle against the accepted setup",
      effect: needed < 0 ? "larger jet" : "smaller jet",
    },
    ...(r.vents.length > 1
      ? [{ fact: "Where the bowl is vented is not known", from: "model card", effect: "mean of both cases" }]
      : []),
  ];
}

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
  const size = (s: number, c: typeof q.convention) =>
    c === q.convention ? s : jetSizeForArea(jetAreaMm2(s, c), q.convention);
  if (size(choice.chosen.size, choice.convention) >= floor) return { choice, refusal: null };
  const jets = t.jets.filter((j) => j.setting !== t.key || size(j.size, j.convention) >= floor);
  const listed = jets.some((j) => j.setting === t.key && (j.free >= 1 || j.orderable));
  const kept = chooseJet({ ...q, jets: listed ? jets : [stepSmaller(t, q)] });
  return {
    choice: { ...kept, exact: q.exact },
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

function stepSmaller(t: JetTask, q: JetQuestion): JetOnHand {
  const size = (t.fitted ?? q.exact) - (settingDef(t.key)?.step ?? 2.5);
  return { setting: t.key, convention: q.convention, size, free: 0, orderable: true };
}

/** A chosen jet's size in the fitted numbering, for computing on. */
export function equivalentSize(r: Resolved, choice: JetChoice): number {
  return choice.convention === r.machine.convention
    ? choice.chosen.size
    : jetSizeForArea(jetAreaMm2(choice.chosen.size, choice.convention), r.machine.convention);
}
