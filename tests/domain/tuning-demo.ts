import { airFromReading } from "@/lib/domain/air/weather";
import type { Known, ModelCardFacts, TargetInput } from "@/lib/domain/tuning/targetTypes";

const read = <T>(value: T): Known<T> => ({ value, how: "read" });
export const PLAIN_AIR = airFromReading({ stationPa: 101_325, temperatureC: 20, humidity: 0.4 });

/** An invented 580 cc single with a constant-vacuum carburettor: Tarrant Drover 580. */
export const DROVER: ModelCardFacts = {
  displacementCc: read(580),
  cylinders: read(1),
  strokeMm: read(78),
  ratedRpm: read(6500),
  carburettorType: read("cv"),
  boreMm: read(37),
  diaphragmMm: read(63),
  slideMassG: read(42),
  springRateNPerM: read(110),
  springFreeMm: read(118),
  springCoils: read(21),
  springInstalledMm: read(84),
  needleJetMm: read(2.6),
  needle: read({
    straightMm: 2.5,
    straightLiftMm: 6,
    clipAt: 3,
    clipStepMm: 1,
    clips: 5,
    tapers: [{ lengthMm: 40, includedAngleDeg: 1.79 }],
  }),
  jetConvention: read("bore"),
  ventedTo: read("atmosphere"),
  fuel: read("E10"),
  snorkelMm: read(36),
  snorkelHoleMm: read(45),
  headerMm: read(36),
  deliveredScrewTurns: read(1.75),
};

export const AS_FOUND = {
  mainJet: read(140),
  pilotJet: read(45),
  clipPosition: read(3),
  mixtureScrewTurns: read(1.75),
  springLengthMm: read(118),
  liftHoleCount: read(1),
  liftHoleMm: read(2.2),
  airboxOpeningMm: read(0),
  snorkelFitted: read(1),
  headerWeldMm: read(3),
  idleSpeedRpm: read(1400),
};

export function mainJets(sizes: readonly number[], free = 1, orderable = true): TargetInput["jets"] {
  return sizes.map((size) => ({
    setting: "mainJet" as const,
    convention: "bore" as const,
    size,
    free,
    orderable,
  }));
}

export const OPENED: TargetInput = {
  card: DROVER,
  carburettors: [{ name: "carburettor", settings: AS_FOUND }],
  changes: [
    { setting: "airboxOpeningMm", change: "set", value: 47 },
    { setting: "mainJet", change: "computed" },
    { setting: "clipPosition", change: "computed" },
    { setting: "mixtureScrewTurns", change: "computed" },
    { setting: "idleSpeedRpm", change: "computed" },
  ],
  now: PLAIN_AIR,
  baseline: PLAIN_AIR,
  jets: mainJets([135, 137.5, 140, 142.5, 145, 147.5, 150, 155]),
};
