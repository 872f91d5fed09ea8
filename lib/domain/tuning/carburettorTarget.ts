import type { Reason } from "../reason";
import { applyChanges, valuesOf } from "./changes";
import { uncountedFlows } from "./flowFigures";
import { chooseJet } from "./jetChoice";
import { type JetTask, jetQuestion, jetReach } from "./jetQuestion";
import { chooseWithinStep, equivalentSize } from "./jetStep";
import { mainAndNeedle, type Writable } from "./mainAndNeedle";
import { bestCutaway, rankNeedles } from "./mechanical";
import { heightAsked, heightWarnings, told, unsureOf } from "./needleAsked";
import { changedNeedle, clipLess } from "./needleTarget";
import { pilotStations } from "./pilotStations";
import { ratios } from "./ratios";
import { screwStart } from "./screw";
import { stationsFor } from "./solve";
import { resolve } from "./station";
import { outOfReach, unknownFor } from "./targetGaps";
import { listSettings } from "./targetList";
import type {
  CarburettorTarget,
  FoundCarburettor,
  JetChoice,
  JetOnHand,
  TargetInput,
  TargetRefusal,
  Warning,
} from "./targetTypes";
import { freerBreathing } from "./tradeRules";
import { workedParts } from "./workedParts";

export interface SolvedCarburettor {
  readonly target: CarburettorTarget;
  readonly refusals: readonly TargetRefusal[];
  readonly warnings: readonly Warning[];
  readonly assumptions: readonly Reason[];
}

/**
 * Solves one carburettor: main jet, then needle height, again until settled (they are in series), then pilot jet, then screw.
 * `jets` is what is still free, `needed` how many carburettors get the same. A jet that
 * no size can put on target is left out with a warning. Throws Refusal and OutOfRange. Source: tuning order, common practice.
 */
export function solveCarburettor(
  input: TargetInput,
  given: FoundCarburettor,
  jets: readonly JetOnHand[],
  needed: number,
): SolvedCarburettor {
  const oldNeedle = given.needle ?? input.card.needle;
  const found = clipLess(given, oldNeedle);
  const applied = applyChanges(found.settings, input.changes);
  const asFound = valuesOf(found.settings);
  const changed = changedNeedle(oldNeedle, input.needleChange);
  const newNeedle = input.newNeedle ?? changed.needle;
  const other =
    input.newNeedle ?? (input.needleChange?.work.kind === "exchange" ? changed.needle : undefined);
  const { computed, moves } = heightAsked(applied, newNeedle?.value.clips);
  const { parts, ...worked } = workedParts(input, found, asFound, applied.values);
  const base = {
    card: input.card,
    carburettors: input.carburettors.length,
    calibration: input.calibration,
    ...input.fuel?.now,
    reference: {
      settings: asFound,
      needle: oldNeedle,
      ...worked.before,
      air: input.baseline,
      ...input.fuel?.found,
      unsure: unsureOf(found.settings),
    },
  };
  const values: Writable = { ...worked.values };
  if (other && other.value.clips > 0) values.clipPosition = other.value.clipAt;
  else if (other) delete values.clipPosition;
  const state = { ...base, settings: { ...values }, needle: newNeedle, ...worked.after };
  const r = resolve(state, input.now);
  const stations = { ...stationsFor(r), pilotJet: pilotStations(state, input.now) };
  let raisedMm = 0;
  const needle = r.now.needle;
  const refusals: TargetRefusal[] = [];
  const beyond = new Map<string, Warning>();
  const choose = (key: "mainJet" | "pilotJet"): JetChoice | null => {
    const fitted = asFound[key] ?? null;
    const task: JetTask = { r, stations, key, values: { ...values }, needle, raisedMm, fitted, jets, needed };
    const reached = jetReach(task);
    if (reached !== "") {
      beyond.set(key, outOfReach(key, reached));
      return null;
    }
    const given = values[key];
    if (!computed.has(key) && given !== undefined) return chooseJet({ ...jetQuestion(task), given });
    const { choice, refusal } = chooseWithinStep(task, found.name);
    const earlier = refusals.findIndex((x) => x.setting === key);
    if (earlier >= 0) refusals.splice(earlier, 1);
    if (refusal) refusals.push(refusal);
    values[key] = equivalentSize(r, choice);
    return choice;
  };
  if (computed.has("slideCutawayMm")) {
    const cut = bestCutaway(r, stations, values, needle);
    if (cut !== null) values.slideCutawayMm = cut;
  }
  const { mainJet, position, ...raised } = mainAndNeedle(
    {
      r,
      stations,
      values,
      needle,
      found: found.settings,
      groove: other?.value.clipAt,
      shims: (input.shims ?? []).map((one) => ({ ...one, free: Math.floor(one.free / needed) })),
      moves,
    },
    asFound.mainJet !== undefined,
    (by) => {
      raisedMm = by;
      return choose("mainJet");
    },
  );
  raisedMm = raised.raisedMm;
  const pilotJet = asFound.pilotJet === undefined ? null : choose("pilotJet");
  const freer = freerBreathing(asFound, values);
  const screw = screwStart({ r, stations, values, needle, found: asFound, card: input.card, freer });
  if (screw && computed.has("mixtureScrewTurns")) values.mixtureScrewTurns = screw.value;
  return {
    target: {
      name: found.name,
      settings: listSettings(found.settings, values, told(computed, position), applied.because, {
        mainJet,
        pilotJet,
        screw,
      }),
      mainJet,
      pilotJet,
      needles: rankNeedles(r, stations, values, input.needles ?? []),
      ...ratios(input.card, asFound, values, {
        from: worked.before.spring,
        to: worked.after.spring,
      }),
      screwStart: screw,
      needlePosition: position,
      needle: changed.target,
      ...(parts.length > 0 ? { parts } : {}),
      before: { ...base, settings: asFound, needle: oldNeedle, ...worked.before },
      after: {
        ...base,
        settings: values,
        needle: newNeedle,
        ...worked.after,
        ...(raisedMm === 0 ? {} : { raisedMm }),
      },
    },
    refusals,
    warnings: [
      ...applied.warnings,
      ...changed.warnings,
      ...uncountedFlows(parts),
      ...heightWarnings(position, moves, needle),
      ...unknownFor(computed, asFound, screw !== null),
      ...beyond.values(),
    ],
    assumptions: r.machine.assumptions,
  };
}
