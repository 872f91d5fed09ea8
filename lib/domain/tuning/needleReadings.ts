import type { NeedleShape } from "./cardTypes";
import type { NeedleRecord, NeedleStation } from "./needleRecord";

/** A diameter read on a job card. */
export interface NeedleReading {
  /** Distance below the shoulder, mm; null: on the straight part. */
  readonly stationMm: number | null;
  readonly diameterMm: number;
  /** The instrument's step, mm; null where the card does not say. */
  readonly stepMm: number | null;
}

/** What is known of a needle before it is read; `measured` false where it is a target, reckoned and not read. */
export interface NeedleBefore {
  readonly record: NeedleRecord;
  readonly measured: boolean;
}

/** Stations nearer than this are one, mm. Source: judgement. */
const SAME_PLACE_MM = 0.06;
/** Step of a micrometer where nobody said, mm: common practice. */
const USUAL_STEP_MM = 0.01;

/** A needle of which nothing was written yet: as delivered, as far as anybody knows. */
export const UNREAD_NEEDLE: NeedleRecord = {
  origin: "delivered",
  marks: "",
  stations: [],
  micrometerMm: null,
  grooves: null,
  grooveStepMm: null,
  grooveAt: null,
  planeMm: null,
  note: "",
};

/**
 * A needle's record with what a card read put in at its stations, in place of what stood there. A reading of the straight part
 * stands for all of that part; where nobody knows how far it goes, the reading is told in the note and makes no station. Of a target
 * the stations that nobody read stay, marked as computed. The record's step is the coarsest of those it was read with.
 */
export function recordWithReadings(
  before: NeedleBefore,
  readings: readonly NeedleReading[],
  delivered: NeedleShape | undefined,
): NeedleRecord {
  const { record: base, measured } = before;
  let stations: readonly NeedleStation[] = measured
    ? base.stations
    : base.stations.map((one) => ({ ...one, computed: true as const }));
  const unplaced: number[] = [];
  for (const { stationMm, diameterMm } of readings) {
    const places = stationMm === null ? straightPlaces(before, delivered) : [stationMm];
    if (places.length === 0) unplaced.push(diameterMm);
    for (const atMm of places) stations = withStation(stations, { atMm, diameterMm });
  }
  const steps = [measured ? base.micrometerMm : null, ...readings.map((one) => one.stepMm)];
  const known = steps.filter((step) => step !== null);
  const note = unplaced.map((mm) => `Straight part ${mm} mm; how far it goes is not measured.`);
  return {
    ...base,
    stations,
    micrometerMm: known.length === 0 ? null : Math.max(...known),
    note: [base.note, ...note].filter(Boolean).join(" ").slice(0, 500),
  };
}

function withStation(stations: readonly NeedleStation[], read: NeedleStation): NeedleStation[] {
  const others = stations.filter((one) => Math.abs(one.atMm - read.atMm) >= SAME_PLACE_MM);
  return [...others, read].sort((a, b) => a.atMm - b.atMm);
}

/** Where a reading of the straight part stands: its stations, else where the model card's delivered needle has its end; none where nobody knows. */
function straightPlaces(before: NeedleBefore, delivered: NeedleShape | undefined): readonly number[] {
  const { stations, micrometerMm, origin } = before.record;
  const [first] = stations;
  const step = (micrometerMm ?? USUAL_STEP_MM) + 1e-9;
  const alike = stations.filter((s) => first && first.diameterMm - s.diameterMm <= step).map((s) => s.atMm);
  // A target begins with the end of its straight part; of a measured needle two places of one diameter tell that part.
  if (alike.length > (before.measured ? 1 : 0)) return alike;
  if (origin !== "delivered" || delivered?.planeMm === undefined) return [];
  const endMm = Number((delivered.planeMm + delivered.straightLiftMm).toFixed(3));
  return [first && first.atMm <= endMm + SAME_PLACE_MM ? first.atMm : endMm];
}
