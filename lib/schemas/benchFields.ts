import type { BenchSpecs } from "./bench";

const ALTITUDE = { kind: "quantity", units: ["m", "ft"], shown: "altitude", low: -400, high: 5000 } as const;
const TEMPERATURE = {
  kind: "quantity",
  units: ["degC", "degF"],
  shown: "airTemperature",
  low: -39,
  high: 55,
} as const;
const PRESSURE = { kind: "quantity", units: ["hPa", "kPa", "inHg", "mmHg"], shown: "airPressure" } as const;

export const CONVENTIONS = [
  { value: "bore", label: "Bore in 1/100 mm" },
  { value: "flow", label: "Rated flow" },
] as const;

const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
].map((label, at) => ({ value: String(at + 1), label }));

export const AIR_FIELDS = {
  from: {
    kind: "choice",
    label: "Weather",
    options: [
      { value: "read", label: "Read on the spot" },
      { value: "typical", label: "Typical of the month" },
    ],
  },
  altitude: { ...ALTITUDE, label: "Altitude", needed: true },
  qnh: {
    ...PRESSURE,
    label: "QNH",
    low: 850,
    high: 1100,
    hint: "The altimeter setting of an aerodrome. A weather app's sea-level pressure is not always QNH.",
  },
  station: {
    ...PRESSURE,
    label: "Station pressure",
    low: 450,
    high: 1100,
    hint: "What a barometer on the spot shows, not reduced to sea level.",
  },
  temperature: { ...TEMPERATURE, label: "Temperature" },
  humidity: { kind: "number", label: "Relative humidity", unit: "%", low: 0, high: 100 },
  dewPoint: { ...TEMPERATURE, label: "Dew point", hint: "Instead of the humidity." },
  month: { kind: "choice", label: "Month", options: MONTHS },
} as const satisfies BenchSpecs;

const SEASONS_THERE = [
  { value: "year", label: "All year" },
  { value: "summer", label: "Summer" },
  { value: "autumn", label: "Autumn" },
  { value: "winter", label: "Winter" },
  { value: "spring", label: "Spring" },
] as const;

export const TRIP_FIELDS = {
  mainJet: { kind: "number", label: "Main jet fitted", low: 40, high: 300, needed: true },
  pilotJet: { kind: "number", label: "Pilot jet fitted", low: 10, high: 100 },
  screw: { kind: "number", label: "Mixture screw", unit: "turns out", low: 0, high: 6 },
  convention: { kind: "choice", label: "Jet numbers are", options: CONVENTIONS },
  mainFamily: { kind: "text", label: "Main jets from", max: 60 },
  hereAltitude: {
    ...ALTITUDE,
    label: "Altitude here",
    needed: true,
    hint: "Where these settings run right.",
  },
  hereTemperature: { ...TEMPERATURE, label: "Temperature here", needed: true },
  lowAltitude: { ...ALTITUDE, label: "Lowest altitude there", needed: true },
  highAltitude: { ...ALTITUDE, label: "Highest altitude there", hint: "Blank: the same." },
  season: { kind: "choice", label: "Season there", options: SEASONS_THERE },
  coldest: { ...TEMPERATURE, label: "Coldest there", hint: "Blank: typical of the season." },
  warmest: { ...TEMPERATURE, label: "Warmest there", hint: "Blank: typical of the season." },
  humidity: {
    kind: "number",
    label: "Relative humidity",
    unit: "%",
    low: 0,
    high: 100,
    hint: "Blank: 50 %, assumed.",
  },
} as const satisfies BenchSpecs;
