import { relativeAirDensity } from "../air/weather";
import { Refusal, within } from "../refusal";
import { valuesOf } from "../tuning/changes";
import type { JetQuestion } from "../tuning/jetChoice";
import { type JetLimits, jetLimits } from "../tuning/jetLimits";
import { jetQuestion, jetReach } from "../tuning/jetQuestion";
import { compareJets } from "../tuning/jets";
import { modelledParts } from "../tuning/modelledParts";
import { clipLess } from "../tuning/needleTarget";
import { stationsFor } from "../tuning/solve";
import { resolve } from "../tuning/station";
import { targetSettings } from "../tuning/targetSheet";
import { type Place, placeAir } from "./placeAir";
import type { TripCorner, TripInput } from "./tripTypes";

/** A corner with the question its main jet answers. */
export interface AskedCorner extends Omit<TripCorner, "byDensity"> {
  readonly question: JetQuestion;
  readonly limits: JetLimits;
}

/**
 * The corners of a trip, at most four: its lowest and highest altitude, its coldest and warmest air, each with what the model
 * wants there. Throws OutOfRange for a range upside down, Refusal when no size meets a corner. Source: fuel model.
 */
export function cornersOf(input: TripInput, fitted: number): readonly AskedCorner[] {
  const { lowM, highM, coldC, warmC, humidity } = input.there;
  within("highest altitude", highM, lowM, 5000, "m");
  within("warmest temperature", warmC, coldC, 55, "C");
  const places = new Map<string, Place>();
  for (const altitudeM of [lowM, highM])
    for (const temperatureC of [coldC, warmC])
      places.set(`${Math.round(altitudeM)} m, ${Math.round(temperatureC)} °C`, {
        altitudeM,
        temperatureC,
        humidity,
      });
  return [...places].map(([name, place]) => {
    const { question, limits, air } = resolvedAt(input, place);
    const [target] = targetSettings({
      card: input.card,
      carburettors: input.carburettors,
      changes: [
        { setting: "mixtureScrewTurns", change: "computed" },
        { setting: "pilotJet", change: "computed" },
      ],
      now: air,
      baseline: input.here,
      jets: input.jets,
      calibration: input.calibration,
    }).carburettors;
    const { convention } = question;
    return {
      name,
      place,
      air,
      density: relativeAirDensity(air, input.here),
      exact: question.exact,
      areaRatio: compareJets({ size: fitted, convention }, { size: question.exact, convention }).areaRatio,
      screw: target?.screwStart ?? null,
      pilot: target?.pilotJet?.chosen.size ?? null,
      question,
      limits,
    };
  });
}

/** The fuel model made ready for one place, and its main jet's question. Throws Refusal when no size meets the target there. */
export function resolvedAt(input: TripInput, place: Place) {
  const air = placeAir(place);
  const [given = { name: "", settings: {} }] = input.carburettors;
  const needle = given.needle ?? input.card.needle;
  const found = clipLess(given, needle);
  const settings = valuesOf(found.settings);
  const described = modelledParts(found.parts);
  const state = {
    card: input.card,
    carburettors: input.carburettors.length,
    settings,
    needle,
    ...described,
    calibration: input.calibration,
    reference: { settings, needle, ...described, air: input.here },
  };
  const r = resolve(state, air);
  const task = {
    r,
    stations: stationsFor(r),
    key: "mainJet" as const,
    values: settings,
    needle: r.now.needle,
    fitted: settings.mainJet ?? null,
    jets: input.jets,
    needed: input.carburettors.length,
  };
  const out = jetReach(task);
  if (out)
    throw new Refusal(
      `No main jet meets the target at ${Math.round(place.altitudeM)} m: ${out}.`,
      "Check needle, needle jet and vents on the model card.",
    );
  return {
    r,
    air,
    question: jetQuestion(task),
    limits: jetLimits(task, settings.mainJet ?? r.machine.mainJet),
  };
}
