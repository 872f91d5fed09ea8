import type { Air } from "../air/weather";
import { type Stations, stationsFor } from "./solve";
import { resolve } from "./station";
import type { FuelState, SettingKey, SettingValues } from "./targetTypes";

/** What moves the slide and not the air past the pilot outlet: with the throttle shut the slide is down. Source: common practice. */
const SLIDE: readonly string[] = ["springLengthMm", "springCoils"] satisfies readonly SettingKey[];

/**
 * Openings for pilot jet and screw, with the slide held as the reference has it: a cut spring asks for no other pilot jet, nor do
 * lift holes, which the fuel model does not know.
 */
export function pilotStations(state: FuelState, now: Air): Stations["pilotJet"] {
  const settings: SettingValues = Object.fromEntries(
    Object.entries(state.settings).filter(([key]) => !SLIDE.includes(key)),
  );
  return stationsFor(resolve({ ...state, settings, spring: state.reference.spring }, now)).pilotJet;
}
