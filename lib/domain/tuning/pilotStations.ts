import type { Air } from "../air/weather";
import { type Stations, stationsFor } from "./solve";
import { resolve } from "./station";
import type { FuelState, SettingKey, SettingValues } from "./targetTypes";

/** What moves the slide and not the air past the pilot outlet: with the throttle shut the slide is down. Source: common practice. */
const SLIDE: readonly SettingKey[] = ["springLengthMm", "springCoils", "liftHoleCount", "liftHoleMm"];

/** Openings for pilot jet and screw, with the slide held as found: a cut spring or a drilled slide asks for no other pilot jet. */
export function pilotStations(state: FuelState, found: SettingValues, now: Air): Stations["pilotJet"] {
  const settings: SettingValues = Object.fromEntries([
    ...Object.entries(state.settings).filter(([key]) => !SLIDE.includes(key as SettingKey)),
    ...Object.entries(found).filter(([key]) => SLIDE.includes(key as SettingKey)),
  ]);
  return stationsFor(resolve({ ...state, settings, spring: state.reference.spring }, now)).pilotJet;
}
