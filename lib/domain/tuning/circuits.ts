import type { Air } from "../air/weather";
import type { FlowAreas } from "./flowFigures";
import { jetAreaMm2, seriesArea } from "./jets";
import type { Machine } from "./machine";
import { annulusMm2, needleDiameterMm } from "./needle";
import { raisedMm } from "./needleHeight";
import type { SlideSpring } from "./springCut";
import type { FuelName, NeedleShape, SettingValues } from "./targetTypes";

/** What one carburettor is set to. */
export interface Fitted extends Metering {
  readonly air: Air;
  /** The slide spring as described; undefined: as the settings cut the reference's. */
  readonly spring?: SlideSpring | undefined;
  readonly flows?: FlowAreas | undefined;
  readonly fuel: FuelName;
  /** Of the fuel in the bowl. */
  readonly fuelTemperatureK: number;
}

/** What meters the fuel. */
export interface Metering {
  readonly settings: SettingValues;
  readonly needle: NeedleShape;
  /** Raised by this where only the difference is known, mm. */
  readonly raisedMm?: number | undefined;
}

/** Metering area (mm2) of needle ring and main jet in series at a lift. `from`: settings of the reference, whose needle height counts as none. */
export function mainCircuitMm2(m: Machine, fitted: Metering, liftMm: number, from: SettingValues): number {
  const { settings: s, needle } = fitted;
  const ring = annulusMm2(m.needleJetMm, needleDiameterMm(needle, liftMm + raisedMm(fitted, from)));
  return seriesArea(ring, jetAreaMm2(s.mainJet ?? m.mainJet, m.convention));
}

/** Metering area (mm2) of pilot jet and mixture screw in series; the screw's area is proportional to its turns (judgement). */
export function pilotCircuitMm2(m: Machine, s: SettingValues, referenceTurns: number): number {
  const jet = jetAreaMm2(s.pilotJet ?? m.pilotJet, m.convention);
  const turns = Math.max(0.05, s.mixtureScrewTurns ?? referenceTurns);
  return seriesArea(jet, (jetAreaMm2(m.pilotJet, m.convention) * turns) / Math.max(0.05, referenceTurns));
}
