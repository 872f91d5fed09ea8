export const SIDES = ["left", "right"] as const;
export type Side = (typeof SIDES)[number];

/** What can be wrong with a place. Common practice, no source. */
export const DAMAGES = [
  "scratch",
  "dent",
  "crack",
  "broken",
  "bent",
  "rust",
  "leak",
  "torn",
  "missing",
  "loose",
  "other",
] as const;
export type Damage = (typeof DAMAGES)[number];

/** Parts of a bike that can be named, and where each lies on the drawing of its left side, in the drawing's units. */
export const BIKE_PARTS = {
  frontWheel: [66, 150],
  frontMudguard: [72, 88],
  fork: [92, 104],
  headlamp: [88, 56],
  indicatorFront: [102, 72],
  instruments: [104, 38],
  handlebar: [128, 34],
  mirror: [112, 16],
  tank: [146, 58],
  seat: [202, 62],
  tail: [256, 68],
  tailLamp: [276, 76],
  indicatorRear: [268, 92],
  numberPlate: [292, 100],
  sidePanel: [196, 92],
  frame: [118, 90],
  engine: [146, 128],
  carburettors: [176, 98],
  exhaust: [222, 160],
  footrest: [186, 148],
  swingarm: [214, 140],
  chain: [224, 128],
  shock: [212, 110],
  rearWheel: [252, 150],
  stand: [168, 178],
} as const satisfies Record<string, readonly [number, number]>;
export type BikePart = keyof typeof BIKE_PARTS;
export const BIKE_PART_KEYS = Object.keys(BIKE_PARTS) as readonly BikePart[];

/** A bike takes no more marks than this: beyond it a photo says more. Judgement. */
export const MOST_DAMAGES = 30;

/** Where a part lies on the drawing of a side: the right side is the left one seen from behind the sheet. */
export function placeOf(part: BikePart, side: Side, width: number): readonly [x: number, y: number] {
  const [x, y] = BIKE_PARTS[part];
  return [side === "left" ? x : width - x, y];
}

/** The part whose middle is nearest to a place on the drawing of a side, as a first guess at what was touched. */
export function partAt(x: number, y: number, side: Side, width: number): BikePart {
  const away = (part: BikePart) => {
    const [partX, partY] = placeOf(part, side, width);
    return Math.hypot(partX - x, partY - y);
  };
  return BIKE_PART_KEYS.reduce((nearest, part) => (away(part) < away(nearest) ? part : nearest));
}
