/** Heads and drives that carburettor screws have. JIS: cross recess to JIS B 4633; Phillips: ISO 8764-1 form PH. */
export const HEADS = ["pan", "countersunk", "hexagon", "cheese", "button", "none"] as const;
export const DRIVES = ["cross, JIS", "cross, Phillips", "slot", "hexagon socket", "hexagon", "Torx"] as const;
export type ScrewHead = (typeof HEADS)[number];
export type ScrewDrive = (typeof DRIVES)[number];

/** A screw as it is told from others: nominal diameter, pitch and length under the head in millimetres. */
export interface Screw {
  readonly diameterMm: number;
  readonly pitchMm: number;
  readonly lengthMm: number;
  readonly head: ScrewHead;
  readonly drive: ScrewDrive;
}

/** Coarse pitches of the sizes that carburettors have, in mm. Source: ISO 261. */
export const COARSE_PITCH: Readonly<Record<string, number>> = {
  "2": 0.4,
  "2.5": 0.45,
  "3": 0.5,
  "3.5": 0.6,
  "4": 0.7,
  "5": 0.8,
  "6": 1,
  "8": 1.25,
};

export interface ScrewFit {
  /** "same": in every measure; "fits": same thread, what differs is named. */
  readonly fit: "same" | "fits";
  readonly differs: readonly string[];
}

/** A length within this is the same: what a caliper on a worn screw tells (judgement). */
const SAME_LENGTH_MM = 0.5;

/**
 * Whether a screw of stock can stand in for a worn one: null for another thread. A longer one may bottom or touch what moves, a
 * shorter one holds by fewer turns: both are said, not hidden. Diameters and pitches compare as nominal ones, to 0.01 mm.
 */
export function screwFor(worn: Screw, other: Screw): ScrewFit | null {
  const same = (a: number, b: number) => Math.abs(a - b) < 0.005;
  if (!same(worn.diameterMm, other.diameterMm) || !same(worn.pitchMm, other.pitchMm)) return null;
  const longer = other.lengthMm - worn.lengthMm;
  const by = Number(Math.abs(longer).toFixed(1));
  const differs = [
    ...(longer > SAME_LENGTH_MM ? [`${by} mm longer: look that it does not bottom`] : []),
    ...(longer < -SAME_LENGTH_MM ? [`${by} mm shorter: ${turns(worn, other)} turns fewer hold`] : []),
    ...(other.head === worn.head ? [] : [`head ${other.head}`]),
    ...(other.drive === worn.drive ? [] : [`drive ${other.drive}`]),
  ];
  return { fit: differs.length === 0 ? "same" : "fits", differs };
}

const turns = (worn: Screw, other: Screw) =>
  Number(((worn.lengthMm - other.lengthMm) / worn.pitchMm).toFixed(1));

/** Those that can stand in, the nearest first: fewest differences, then the nearest length. */
export function screwsFor<T extends { readonly screw: Screw }>(
  worn: Screw,
  stock: readonly T[],
): readonly (T & ScrewFit)[] {
  return stock
    .flatMap((one) => {
      const fit = screwFor(worn, one.screw);
      return fit ? [{ ...one, ...fit }] : [];
    })
    .sort(
      (a, b) =>
        a.differs.length - b.differs.length ||
        Math.abs(a.screw.lengthMm - worn.lengthMm) - Math.abs(b.screw.lengthMm - worn.lengthMm),
    );
}

/** "M4 x 0.7 x 12, pan, cross, JIS". */
export const screwText = ({ diameterMm, pitchMm, lengthMm, head, drive }: Screw): string =>
  `M${diameterMm} x ${pitchMm} x ${lengthMm}, ${head}, ${drive}`;
