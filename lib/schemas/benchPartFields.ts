import type { BenchSpecs } from "./bench";
import { CONVENTIONS } from "./benchFields";

const SMALL = { kind: "quantity", units: ["mm", "in"] } as const;

const VENTS = [
  { value: "unknown", label: "Not known yet" },
  { value: "atmosphere", label: "Open air" },
  { value: "airbox", label: "Airbox" },
] as const;
const TYPES = [
  { value: "cv", label: "Constant vacuum" },
  { value: "mechanical", label: "Mechanical slide" },
] as const;

const needle = (which: string) =>
  ({
    straight: {
      ...SMALL,
      label: `${which} needle: straight part`,
      face: "Straight part",
      low: 0.5,
      high: 6,
      hint: "Diameter.",
    },
    lift: {
      ...SMALL,
      label: `${which} needle: lift where the taper begins`,
      face: "Taper begins at lift",
      low: 0,
      high: 60,
    },
    length1: {
      ...SMALL,
      label: `${which} needle: first taper, length`,
      face: "First taper, length",
      low: 0.5,
      high: 80,
    },
    angle1: {
      kind: "number",
      label: `${which} needle: first taper, whole angle`,
      face: "First taper, angle",
      unit: "°",
      low: 0.05,
      high: 20,
    },
    length2: {
      ...SMALL,
      label: `${which} needle: second taper, length`,
      face: "Second taper, length",
      low: 0.5,
      high: 80,
    },
    angle2: {
      kind: "number",
      label: `${which} needle: second taper, whole angle`,
      face: "Second taper, angle",
      unit: "°",
      low: 0.05,
      high: 20,
    },
    clip: {
      kind: "number",
      label: `${which} needle: grooves raised`,
      face: "Grooves raised",
      low: -6,
      high: 6,
      hint: "Minus for lowered.",
    },
    stations: {
      kind: "text",
      label: `${which} needle: as measured`,
      face: "Or as measured",
      max: 300,
      hint: "Lift and diameter in mm, such as 0 2.50; 6 2.50; 30 1.75. Fills in for the tapers.",
    },
  }) as const;

const named = <P extends string, S extends BenchSpecs>(prefix: P, specs: S) =>
  Object.fromEntries(Object.entries(specs).map(([name, spec]) => [prefix + name, spec])) as {
    readonly [K in keyof S & string as `${P}${K}`]: S[K];
  };

export const NEEDLE_FIELDS = {
  needleJet: { ...SMALL, label: "Needle jet bore", low: 1, high: 6, needed: true },
  mainJet: { kind: "number", label: "Main jet", low: 40, high: 300, needed: true },
  convention: { kind: "choice", label: "Jet numbers are", options: CONVENTIONS },
  full: {
    ...SMALL,
    label: "Full lift",
    low: 5,
    high: 80,
    needed: true,
    hint: "The carburettor's bore, on most.",
  },
  at: { ...SMALL, label: "Drawn at a lift of", low: 0, high: 80, needed: true },
  grooveStep: { ...SMALL, label: "Distance between grooves", low: 0.2, high: 3, needed: true },
  ...named("a_", needle("First")),
  ...named("b_", needle("Second")),
} as const satisfies BenchSpecs;

export const SLIDE_FIELDS = {
  wire: { ...SMALL, label: "Wire", low: 0.1, high: 3 },
  coil: { ...SMALL, label: "Mean coil diameter", low: 2, high: 60 },
  shear: {
    kind: "number",
    label: "Shear modulus",
    unit: "GPa",
    low: 20,
    high: 100,
    hint: "Blank: 81.5, spring steel.",
  },
  rate: {
    kind: "quantity",
    units: ["N/m", "N/mm", "lbf/in"],
    label: "Or its rate",
    low: 5,
    high: 5000,
    hint: "Measured, instead of wire and coil.",
  },
  coils: { kind: "number", label: "Active coils now", low: 2, high: 60, needed: true },
  coilsAfter: {
    kind: "number",
    label: "Active coils after cutting",
    low: 2,
    high: 60,
    hint: "Blank: not cut.",
  },
  free: { ...SMALL, label: "Free length now", low: 20, high: 250, needed: true },
  installed: { ...SMALL, label: "Length fitted, slide shut", low: 5, high: 250, needed: true },
  innerRate: {
    kind: "quantity",
    units: ["N/m", "N/mm", "lbf/in"],
    label: "Rate of a second spring inside it",
    low: 1,
    high: 5000,
    hint: "Blank: there is none. It stays as it is.",
  },
  innerFree: { ...SMALL, label: "Free length of the second spring", low: 5, high: 250 },
  bore: { ...SMALL, label: "Carburettor bore", low: 10, high: 60, needed: true },
  diaphragm: { ...SMALL, label: "Diaphragm, working diameter", low: 20, high: 120, needed: true },
  mass: { kind: "quantity", units: ["g", "oz"], label: "Slide mass", low: 5, high: 300, needed: true },
  holes: { kind: "number", label: "Lift holes now", low: 1, high: 4, whole: true, needed: true },
  hole: { ...SMALL, label: "Lift hole now", low: 0.5, high: 6, needed: true },
  holesAfter: { kind: "number", label: "Lift holes after", low: 1, high: 4, whole: true, needed: true },
  holeAfter: { ...SMALL, label: "Lift hole after", low: 0.5, high: 6, needed: true },
  depression: {
    kind: "quantity",
    units: ["Pa", "hPa", "mmHg"],
    label: "Depression the throttle is snapped to",
    low: 200,
    high: 20_000,
    needed: true,
  },
} as const satisfies BenchSpecs;

export const BREATHING_FIELDS = {
  displacement: {
    kind: "quantity",
    units: ["cc", "in3"],
    label: "Displacement",
    low: 30,
    high: 3000,
    needed: true,
  },
  carburettors: { kind: "number", label: "Carburettors", low: 1, high: 4, whole: true, needed: true },
  ratedRpm: {
    kind: "number",
    label: "Engine speed at rated power",
    unit: "rpm",
    low: 2000,
    high: 18_000,
    needed: true,
  },
  type: { kind: "choice", label: "Carburettor", options: TYPES },
  mainJet: { kind: "number", label: "Main jet fitted", low: 40, high: 300, needed: true },
  convention: { kind: "choice", label: "Jet numbers are", options: CONVENTIONS },
  vented: { kind: "choice", label: "Bowl and diaphragm vented to", options: VENTS },
  snorkel: { ...SMALL, label: "Snorkel, inside diameter", low: 5, high: 120, needed: true },
  snorkelHole: { ...SMALL, label: "Hole left with the snorkel out", low: 5, high: 150, needed: true },
  snorkelAfter: {
    kind: "choice",
    label: "Snorkel after",
    options: [
      { value: "in", label: "Stays in" },
      { value: "out", label: "Comes out" },
    ],
  },
  opening: {
    ...SMALL,
    label: "Cut opening now",
    low: 0,
    high: 120,
    hint: "Diameter; 0 for none.",
    needed: true,
  },
  openingAfter: { ...SMALL, label: "Cut opening after", low: 0, high: 120, needed: true },
  filterLoss: {
    kind: "quantity",
    units: ["Pa", "hPa", "mmHg"],
    label: "Filter's own loss at full load",
    low: 0,
    high: 5000,
    hint: "Measured across the clean filter; blank leaves it out.",
  },
  header: { ...SMALL, label: "Header pipe at the weld, inside", low: 15, high: 80, needed: true },
  weld: { ...SMALL, label: "Weld standing now", low: 0, high: 10, needed: true },
  weldAfter: { ...SMALL, label: "Weld left standing after", low: 0, high: 10, needed: true },
} as const satisfies BenchSpecs;
