import type { Known, ModelCardFacts, NeedleShape } from "./cardTypes";
import { cornersOf, diameterBelow, type NeedlePoint, needleThroughPoints } from "./needlePoints";

export const NEEDLE_ORIGINS = ["delivered", "bought", "reshaped"] as const;
export type NeedleOrigin = (typeof NEEDLE_ORIGINS)[number];

/** A diameter of a record; `computed` where it is a target's and nobody measured it, beside others that somebody did. */
export interface NeedleStation extends NeedlePoint {
  readonly computed?: true;
}

/** A needle as somebody measured it, on a bike or in a drawer. What nobody measured is null, never 0. Lengths in mm. */
export interface NeedleRecord {
  readonly origin: NeedleOrigin;
  /** Letters and numbers on it. */
  readonly marks: string;
  /** Diameters by distance below the shoulder, from the shoulder down. */
  readonly stations: readonly NeedleStation[];
  /** The micrometer's step. */
  readonly micrometerMm: number | null;
  /** Clip grooves; 0: it has none and sits by shims. */
  readonly grooves: number | null;
  readonly grooveStepMm: number | null;
  /** The groove that counts as the shoulder for the stations. */
  readonly grooveAt: number | null;
  /** How far the needle jet lies below the shoulder, slide shut. */
  readonly planeMm: number | null;
  readonly note: string;
}

/** A recorded needle as the fuel model needs it, or what is missing. */
export interface ReadNeedle {
  readonly shape: NeedleShape | null;
  /** What to measure, in words; empty where nothing is missing. */
  readonly ask: string;
}

/** Step of a micrometer where nobody said, mm: common practice. */
const USUAL_STEP_MM = 0.01;

/**
 * The shape of a recorded needle in its carburettor. Where nobody measured how deep the jet lies, it follows from the lift at which
 * the model card's taper begins, if the record shows where the taper begins; else it is asked for. Source: geometry.
 */
export function needleOf(record: NeedleRecord, card: Pick<ModelCardFacts, "needle">): ReadNeedle {
  const delivered = card.needle?.value;
  const points = profileOf(record, delivered);
  if (points.length < 2)
    return { shape: null, ask: "Measure the needle at two stations or more, from the shoulder down." };
  const plane = record.planeMm ?? delivered?.planeMm ?? planeByTaper(record, delivered);
  if (plane === null)
    return {
      shape: null,
      ask: "Measure how far the needle jet lies below the needle's shoulder, slide shut.",
    };
  const grooves = record.grooves ?? delivered?.clips ?? 5;
  const assumed = record.grooves === null && (delivered === undefined || delivered.groovesAssumed === true);
  return {
    shape: needleThroughPoints(points, plane, {
      clips: grooves,
      clipAt: grooves === 0 ? 0 : (record.grooveAt ?? delivered?.clipAt ?? Math.ceil(grooves / 2)),
      clipStepMm: record.grooveStepMm ?? delivered?.clipStepMm ?? 1,
      ...(assumed ? { groovesAssumed: true } : {}),
    }),
    ask: "",
  };
}

/** Corners of the delivered needle nearer than this to a measured station are that station, mm. Source: judgement. */
const APART_MM = 0.06;

/**
 * The points of a needle's profile: its stations, and beyond the first and the last of a delivered needle what its model card says,
 * never thicker below nor thinner above than what was measured. A few readings along a needle are no whole profile.
 */
function profileOf(record: NeedleRecord, delivered: NeedleShape | undefined): readonly NeedlePoint[] {
  const { stations } = record;
  const [first, last] = [stations[0], stations.at(-1)];
  if (!first || !last || record.origin !== "delivered" || delivered?.planeMm === undefined) return stations;
  const corners = cornersOf(delivered);
  return [
    ...corners
      .filter((corner) => corner.atMm < first.atMm - APART_MM)
      .map(({ atMm, diameterMm }) => ({ atMm, diameterMm: Math.max(diameterMm, first.diameterMm) })),
    ...stations,
    ...corners
      .filter((corner) => corner.atMm > last.atMm + APART_MM)
      .map(({ atMm, diameterMm }) => ({ atMm, diameterMm: Math.min(diameterMm, last.diameterMm) })),
  ];
}

function planeByTaper(record: NeedleRecord, delivered: NeedleShape | undefined): number | null {
  if (!delivered) return null;
  const step = record.micrometerMm ?? USUAL_STEP_MM;
  const [first] = record.stations;
  const straight = record.stations.findLast((s) => first && first.diameterMm - s.diameterMm <= step + 1e-9);
  if (!straight || straight === record.stations.at(-1)) return null;
  return straight.atMm - delivered.straightLiftMm;
}

/** The needle that a bike's carburettor has, as it is known; undefined where the record does not tell its shape. */
export function knownNeedle(
  record: NeedleRecord | null,
  card: Pick<ModelCardFacts, "needle">,
): Known<NeedleShape> | undefined {
  const shape = record && needleOf(record, card).shape;
  return shape ? { value: shape, how: "measured" } : undefined;
}

/** The straight part of a recorded needle, mm below the shoulder: to the last station as thick as the first, within the micrometer's step. */
export function straightLengthMm(record: NeedleRecord): number | null {
  const [first] = record.stations;
  const step = record.micrometerMm ?? USUAL_STEP_MM;
  return (
    record.stations.findLast((s) => first && first.diameterMm - s.diameterMm <= step + 1e-9)?.atMm ?? null
  );
}

/** Most that a record is thinner than another needle at its own stations, mm; null without stations or where the two cannot be laid side by side. */
export function wornMm(record: NeedleRecord, delivered: NeedleShape | undefined): number | null {
  if (delivered?.planeMm === undefined || record.stations.length === 0) return null;
  return Math.max(...record.stations.map((s) => diameterBelow(delivered, s.atMm) - s.diameterMm));
}

/** A needle of which the shape is known, as it is kept: its corners below the shoulder, to a thousandth; null where it cannot be placed. */
export function recordOfShape(shape: NeedleShape, origin: NeedleOrigin, marks = ""): NeedleRecord | null {
  if (shape.planeMm === undefined) return null;
  const round = (mm: number) => Number(mm.toFixed(3));
  return {
    origin,
    marks,
    stations: cornersOf(shape).map(({ atMm, diameterMm }) => ({
      atMm: round(atMm),
      diameterMm: round(diameterMm),
    })),
    micrometerMm: null,
    grooves: shape.groovesAssumed ? null : shape.clips,
    grooveStepMm: shape.clips === 0 ? null : shape.clipStepMm,
    grooveAt: shape.clips === 0 ? null : shape.clipAt,
    planeMm: round(shape.planeMm),
    note: "",
  };
}

/** A recorded needle's diameter (mm) at a place below the shoulder: a cone between stations, straight above the first; null below the last. */
export function diameterAt(record: NeedleRecord, atMm: number): number | null {
  const below = record.stations.find((s) => s.atMm >= atMm - 1e-9);
  const above = record.stations.findLast((s) => s.atMm <= atMm + 1e-9);
  if (!below) return null;
  if (!above || below.atMm - above.atMm < 1e-9) return below.diameterMm;
  const share = (atMm - above.atMm) / (below.atMm - above.atMm);
  return above.diameterMm + share * (below.diameterMm - above.diameterMm);
}

/** True where a diameter of a record follows from a station that nobody read, beside others that somebody did. */
export function computedAt(record: NeedleRecord, atMm: number): boolean {
  const below = record.stations.find((s) => s.atMm >= atMm - 1e-9);
  const above = record.stations.findLast((s) => s.atMm <= atMm + 1e-9);
  return below?.atMm === above?.atMm ? below?.computed === true : [below, above].some((s) => s?.computed);
}

/** Places at which needles are laid side by side: those that were measured, or all where none was. */
export function stationsBeside(records: readonly NeedleRecord[]): readonly number[] {
  const placesOf = (some: readonly NeedleRecord[]) =>
    some.flatMap((record) => record.stations.flatMap((s) => (s.computed ? [] : [s.atMm])));
  const measured = placesOf(records.filter((record) => record.micrometerMm !== null));
  return [...new Set(measured.length > 0 ? measured : placesOf(records))].sort((a, b) => a - b);
}
