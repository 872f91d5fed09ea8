import type { BenchSpecs } from "./bench";
import { AIR_FIELDS, TRIP_FIELDS } from "./benchFields";

const mm = (label: string, low: number, high: number, hint?: string) =>
  ({
    kind: "quantity",
    units: ["mm", "in"],
    shown: "smallLength",
    label,
    low,
    high,
    ...(hint ? { hint } : {}),
  }) as const;

/** What may be changed, for which air, and what is to be worked out: a recommendation's address. */
export const RECOMMEND_FIELDS = {
  airbox: mm("Airbox opening", 0, 120, "Blank: as it is. 0: closed again."),
  snorkel: {
    kind: "choice",
    label: "Snorkel",
    options: [
      { value: "same", label: "As it is" },
      { value: "out", label: "Out" },
      { value: "in", label: "Fitted" },
    ],
  },
  weld: mm("Header weld left standing", 0, 10, "Blank: as it is."),
  holes: {
    kind: "number",
    label: "Slide lift holes",
    low: 0,
    high: 4,
    whole: true,
    hint: "Blank: as it is.",
  },
  hole: mm("Slide lift hole", 0.5, 6),
  spring: mm("Slide spring free length", 20, 250, "Blank: as it is."),
  coils: {
    kind: "number",
    label: "Slide spring active coils",
    low: 2,
    high: 60,
    hint: "Blank: as they are. Cut coils shorten it as well.",
  },
  fuel: {
    kind: "choice",
    label: "Fuel from now on",
    options: [
      { value: "same", label: "As it is" },
      { value: "E0", label: "Petrol without ethanol" },
      { value: "E10", label: "Petrol, 10 % ethanol" },
      { value: "E85", label: "Ethanol, 15 % petrol" },
    ],
  },
  fuelTemperature: {
    ...AIR_FIELDS.temperature,
    label: "Fuel temperature",
    hint: "Blank: as warm as the air, assumed.",
  },
  work: {
    kind: "choice",
    label: "Work out",
    options: [
      { value: "all", label: "Jets, clip, cutaway, screw and idle" },
      { value: "mainScrew", label: "Main jet and screw" },
      { value: "main", label: "Main jet only" },
    ],
  },
  pull: {
    kind: "text",
    label: "Torque of its own dyno pull",
    max: 390,
    hint: "Pairs of rpm and torque: 3000 31.2; 3500 33.0. Blank: filling over speed of a usual engine.",
  },
  mainFamily: { kind: "text", label: "Main jets from", max: 60 },
  pilotFamily: { kind: "text", label: "Pilot jets from", max: 60 },
  from: {
    kind: "choice",
    label: "Weather",
    options: [
      { value: "typical", label: "Typical of the month" },
      { value: "read", label: "Read on the spot" },
      { value: "range", label: "A range of seasons and altitudes" },
    ],
  },
  altitude: { ...AIR_FIELDS.altitude, label: "Altitude", hint: "Of a range: the lowest." },
  month: AIR_FIELDS.month,
  temperature: AIR_FIELDS.temperature,
  qnh: AIR_FIELDS.qnh,
  station: { ...AIR_FIELDS.station, hint: "Both pressures blank: standard for the altitude, assumed." },
  humidity: { ...AIR_FIELDS.humidity, hint: "Blank: 50 %, assumed." },
  highAltitude: { ...TRIP_FIELDS.highAltitude, label: "Highest altitude" },
  season: { ...TRIP_FIELDS.season, label: "Season" },
  coldest: { ...TRIP_FIELDS.coldest, label: "Coldest" },
  warmest: { ...TRIP_FIELDS.warmest, label: "Warmest" },
} as const satisfies BenchSpecs;
