export const JETS = "Harrow Brass & Jet";
const GENERAL = "Gulf Cycle Wholesale";
const RUBBER = "Penfold Rubber";

type Row = readonly [
  code: string,
  name: string,
  kind: string,
  unit: string,
  supplier: string,
  bin: string,
  leadDays: string,
  cost: string,
  point: string,
  opening: string,
];

export const PARTS: readonly Row[] = [
  ["NDL-580-A", "Needle, Drover 580 as delivered", "needle", "each", JETS, "C1", "9", "18.40", "1", "2"],
  ["NDL-580-T", "Needle, Drover 580 slim taper", "needle", "each", JETS, "C1", "9", "23.90", "2", "4"],
  ["NDL-400-A", "Needle, Trail 400", "needle", "each", JETS, "C2", "9", "16.20", "1", "2"],
  ["NJ-260", "Needle jet 2.60", "jet", "each", JETS, "C3", "12", "21.00", "1", "2"],
  ["SHIM-N", "Needle shim 0.25 mm", "other", "each", JETS, "C4", "5", "0.35", "20", "80"],
  ["SHIM-N5", "Needle shim 0.5 mm", "other", "each", JETS, "C4", "5", "0.35", "10", "30"],
  ["CLIP-N", "Needle clip", "other", "each", JETS, "C4", "5", "0.60", "10", "40"],
  [
    "SPR-580-S",
    "Slide spring, Drover 580 standard",
    "spring",
    "each",
    GENERAL,
    "C6",
    "10",
    "11.80",
    "1",
    "3",
  ],
  ["SPR-580-L", "Slide spring, Drover 580 soft", "spring", "each", GENERAL, "C6", "10", "13.60", "1", "2"],
  ["SPR-400", "Slide spring, Trail 400", "spring", "each", GENERAL, "C6", "10", "10.90", "1", "2"],
  ["DIA-64", "Diaphragm 64 mm", "seal", "each", RUBBER, "C7", "8", "34.50", "1", "2"],
  ["BF-20", "Breather filter 20 mm", "filter", "each", GENERAL, "D1", "4", "7.80", "4", "14"],
  ["AF-580", "Air filter foam, Drover 580", "filter", "each", GENERAL, "D2", "4", "19.50", "3", "9"],
  ["AF-400", "Air filter foam, Trail 400", "filter", "each", GENERAL, "D2", "4", "16.80", "2", "6"],
  ["FF-6", "Fuel filter, in line 6 mm", "filter", "each", GENERAL, "D3", "3", "4.20", "4", "12"],
  ["OR-BOWL-40", "Bowl O-ring, 40 bore", "seal", "each", RUBBER, "E1", "5", "1.90", "8", "40"],
  ["OR-BOWL-36", "Bowl O-ring, 36 bore", "seal", "each", RUBBER, "E1", "5", "1.90", "6", "24"],
  ["OR-SCREW", "Mixture screw O-ring", "seal", "each", RUBBER, "E2", "5", "0.45", "10", "30"],
  ["GSK-EX-38", "Exhaust gasket 38 mm", "seal", "each", GENERAL, "E4", "4", "4.60", "3", "9"],
  ["GROM-SC", "Side cover grommet", "seal", "each", RUBBER, "E5", "5", "0.95", "6", "20"],
  ["RUB-750", "Intake rubber, Twin 750", "seal", "each", RUBBER, "E6", "12", "27.00", "2", "4"],
  [
    "SCR-J4x12",
    "JIS cross screw M4 x 12, stainless",
    "screw",
    "each",
    GENERAL,
    "F1",
    "3",
    "0.40",
    "30",
    "160",
  ],
  [
    "SCR-J4x16",
    "JIS cross screw M4 x 16, stainless",
    "screw",
    "each",
    GENERAL,
    "F1",
    "3",
    "0.45",
    "30",
    "120",
  ],
  [
    "SCR-J5x16",
    "JIS cross screw M5 x 16, stainless",
    "screw",
    "each",
    GENERAL,
    "F1",
    "3",
    "0.55",
    "20",
    "80",
  ],
  ["HOSE-V4", "Vent hose 4 mm", "hose", "mm", RUBBER, "G1", "4", "0.0038", "4000", "26000"],
  ["HOSE-F6", "Fuel hose 6 mm, ethanol proof", "hose", "mm", RUBBER, "G1", "4", "0.0092", "3000", "14000"],
  ["EDGE-3", "Edge trim for 3 mm sheet", "hose", "mm", RUBBER, "G2", "6", "0.0065", "2000", "9000"],
  ["LOCK-M", "Threadlocker, medium", "chemical", "ml", GENERAL, "H1", "3", "1.15", "20", "100"],
  ["CLEAN-C", "Carburettor cleaner", "chemical", "ml", GENERAL, "H2", "2", "0.021", "1500", "9000"],
  ["PASTE-EX", "Exhaust paste", "chemical", "g", GENERAL, "H3", "4", "0.085", "80", "340"],
  ["GREASE-F", "Filter rim grease", "chemical", "g", GENERAL, "H3", "4", "0.048", "100", "450"],
  ["CAP-VAC", "Vacuum port cap", "other", "each", GENERAL, "E7", "4", "0.85", "8", "30"],
  ["PLUG-8", "Spark plug, heat range 8", "other", "each", GENERAL, "D5", "2", "8.90", "6", "20"],
  [
    "SIL-Q40",
    "Quiet freer silencer, 40 mm",
    "other",
    "each",
    "Ridgeway Exhaust",
    "Loft",
    "6",
    "189.00",
    "0",
    "",
  ],
];

const half = (from: number, to: number) =>
  Array.from({ length: Math.round((to - from) / 2.5) + 1 }, (_, at) => from + at * 2.5);

interface Family {
  readonly family: string;
  readonly code: string;
  readonly name: string;
  readonly convention: "bore" | "flow";
  readonly cost: string;
  readonly bin: string;
  readonly sizes: readonly number[];
  /** Sizes that move, with more of them and a point. */
  readonly busy: readonly [number, number];
  /** A size the shop always has too few of. */
  readonly scarce?: number;
}

export const FAMILIES: readonly Family[] = [
  {
    family: "Main jets, large round",
    code: "MR",
    name: "Main jet, large round",
    convention: "bore",
    cost: "3.20",
    bin: "A1",
    sizes: half(110, 170),
    busy: [125, 160],
  },
  {
    family: "Main jets, hex",
    code: "MH",
    name: "Main jet, hex",
    convention: "flow",
    cost: "3.60",
    bin: "A2",
    sizes: half(110, 170),
    busy: [122.5, 142.5],
  },
  {
    family: "Pilot jets, slim",
    code: "PS",
    name: "Pilot jet, slim",
    convention: "bore",
    cost: "4.10",
    bin: "B1",
    sizes: half(35, 60),
    busy: [40, 50],
  },
  {
    family: "Pilot jets, short",
    code: "PK",
    name: "Pilot jet, short",
    convention: "bore",
    cost: "4.40",
    bin: "B2",
    sizes: half(35, 52.5),
    busy: [40, 47.5],
    scarce: 45,
  },
];
