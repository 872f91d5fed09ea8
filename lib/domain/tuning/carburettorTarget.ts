import type { Reason } from "../reason";
import { applyChanges, valuesOf } from "./changes";
import { chooseWithinStep, equivalentSize, type JetTask } from "./jetStep";
import { ratios } from "./ratios";
import { screwStart } from "./screw";
import type { SettingKey } from "./settings";
import { bestClip, type Stations, stationsFor } from "./solve";
import { type Resolved, resolve } from "./station";
import { listSettings } from "./targetList";
import type {
  CarburettorTarget,
  FoundCarburettor,
  JetChoice,
  JetOnHand,
  NeedleShape,
  SettingValues,
  TargetInput,
  TargetRefusal,
  Warning,
} from "./targetTypes";
import { freerBreathing } from "./tradeRules";

export interface SolvedCarburettor {
  readonly target: CarburettorTarget;
  readonly refusals: readonly TargetRefusal[];
  readonly warnings: readonly Warning[];
  readonly assumptions: readonly Reason[];
}

type Values = Partial<Record<SettingKey, number>>;

/**
 * Solves one carburettor: main jet, then clip, again until settled (they are in series), then pilot jet, then screw.
 * `jets` is what is still free, `needed` how many carburettors get the same. Throws Refusal and OutOfRange. Source: tuning order, common practice.
 */
export function solveCarburettor(
  input: TargetInput,
  found: FoundCarburettor,
  jets: readonly JetOnHand[],
  needed: number,
): SolvedCarburettor {
  const { computed, ...applied } = applyChanges(found.settings, input.changes);
  const asFound = valuesOf(found.settings);
  const oldNeedle = found.needle ?? input.card.needle;
  const newNeedle = input.newNeedle ?? oldNeedle;
  const base = {
    card: input.card,
    carburettors: input.carburettors.length,
    calibration: input.calibration,
    reference: { settings: asFound, needle: oldNeedle, air: input.baseline },
  };
  const values: Values = { ...applied.values };
  if (input.newNeedle) values.clipPosition = input.newNeedle.value.clipAt;
  const r = resolve({ ...base, settings: { ...values }, needle: newNeedle }, input.now);
  const stations = stationsFor(r);
  const needle = r.now.needle;
  const refusals: TargetRefusal[] = [];
  const choose = (key: "mainJet" | "pilotJet"): JetChoice => {
    const task: JetTask = {
      r,
      stations,
      key,
      values: { ...values },
      needle,
      fitted: asFound[key] ?? null,
      jets,
      needed,
    };
    const { choice, refusal } = chooseWithinStep(task, found.name);
    if (!computed.has(key)) return choice;
    const earlier = refusals.findIndex((x) => x.setting === key);
    if (earlier >= 0) refusals.splice(earlier, 1);
    if (refusal) refusals.push(refusal);
    values[key] = equivalentSize(r, choice);
    return choice;
  };
  const mainJet = mainAndClip(r, stations, values, needle, asFound, computed, choose);
  const pilotJet = asFound.pilotJet === undefined ? null : choose("pilotJet");
  const freer = freerBreathing(asFound, values);
  const screw = screwStart({ r, stations, values, needle, found: asFound, card: input.card, freer });
  if (screw && computed.has("mixtureScrewTurns")) values.mixtureScrewTurns = screw.value;
  return {
    target: {
      name: found.name,
      settings: listSettings(found.settings, values, computed, applied.because, { mainJet, pilotJet, screw }),
      mainJet,
      pilotJet,
      ...ratios(input.card, asFound, values),
      screwStart: screw,
      before: { ...base, settings: asFound, needle: oldNeedle },
      after: { ...base, settings: values, needle: newNeedle },
    },
    refusals,
    warnings: applied.warnings,
    assumptions: r.machine.assumptions,
  };
}

/** Main and clip in turn, at most four rounds. The clip goes at most one groove leaner (up) without a measurement. */
function mainAndClip(
  r: Resolved,
  stations: Stations,
  values: Values,
  needle: NeedleShape,
  asFound: SettingValues,
  computed: ReadonlySet<SettingKey>,
  choose: (key: "mainJet") => JetChoice,
): JetChoice | null {
  const known = asFound.mainJet !== undefined;
  let choice: JetChoice | null = null;
  for (let round = 0; round < 4; round++) {
    const before = `${values.mainJet} ${values.clipPosition}`;
    if (known) choice = choose("mainJet");
    if (computed.has("clipPosition")) {
      const { clip } = bestClip(r, stations, values, needle, 0.03);
      const leanest = r.error.taper.samples > 0 ? 1 : (asFound.clipPosition ?? clip) - 1;
      values.clipPosition = Math.max(clip, leanest);
    }
    if (before === `${values.mainJet} ${values.clipPosition}`) break;
  }
  return choice;
}
