import { Refusal, within } from "../refusal";
import { type GainTest, gainTest } from "./gainTest";

/** One pull as columns of equal length; give power or torque. Already corrected, or all by the same factor. */
export interface Pull {
  readonly rpm: readonly number[];
  readonly powerW?: readonly number[] | undefined;
  readonly torqueNm?: readonly number[] | undefined;
  /** Factor of the power standard; absent: as measured. */
  readonly factor?: number | undefined;
}

export interface DynoComparison {
  readonly rpm: readonly number[];
  readonly beforeNm: readonly number[];
  readonly afterNm: readonly number[];
  /** After over before less one, per rpm. */
  readonly gain: readonly number[];
  /** Mean of `gain` over the band. */
  readonly meanGain: number;
  /** Area under torque over the band, after over before less one. */
  readonly areaGain: number;
  /** The gain against the spread of the repeats (gainTest.ts); null when a side has a single pull. */
  readonly test: GainTest | null;
}

const WATT_PER_NM_RPM = (2 * Math.PI) / 60;

/** Torque (Nm) of a pull, from torque or power, with its factor. Refuses neither, both, or columns that differ in length. */
export function pullTorqueNm(pull: Pull): readonly number[] {
  const factor = within("power factor", pull.factor ?? 1, 0.7, 1.4);
  const column = pull.torqueNm ?? pull.powerW;
  if (!column || (pull.torqueNm && pull.powerW))
    throw new Refusal("A pull needs power or torque, one of them.", "Check the column mapping.");
  if (column.length !== pull.rpm.length || column.length < 2)
    throw new Refusal(
      "The columns of the pull differ in length or are too short.",
      "Check the column mapping.",
    );
  return column.map((v, i) => {
    const rpm = within("engine speed", pull.rpm[i] ?? Number.NaN, 200, 25_000, "rpm");
    if (!Number.isFinite(v))
      throw new Refusal(`Row ${i + 1} of the pull holds no number.`, "Correct or leave out the row.");
    return (factor * v) / (pull.torqueNm ? 1 : rpm * WATT_PER_NM_RPM);
  });
}

/**
 * Compares repeated pulls before and after on a common rpm grid inside a band (default: the rpm all pulls share). Reports
 * gain per rpm, mean gain and area, and a test against the repeats' spread: never a single peak. Refuses when the pulls share no
 * band, OutOfRange for torque that is not positive somewhere in it. Source: common practice; Welch 1947 on the pulls' band means.
 */
export function comparePulls(
  before: readonly Pull[],
  after: readonly Pull[],
  band?: { readonly lowRpm: number; readonly highRpm: number },
  stepRpm = 100,
): DynoComparison {
  const all = [...before, ...after];
  if (before.length === 0 || after.length === 0)
    throw new Refusal("A comparison needs a pull before and a pull after.", "Add the missing pull.");
  within("rpm step", stepRpm, 10, 1000, "rpm");
  const lowest = (p: Pull) => p.rpm.reduce((least, rpm) => Math.min(least, rpm), Number.POSITIVE_INFINITY);
  const highest = (p: Pull) => p.rpm.reduce((most, rpm) => Math.max(most, rpm), Number.NEGATIVE_INFINITY);
  const low = Math.max(band?.lowRpm ?? 0, ...all.map(lowest));
  const high = Math.min(band?.highRpm ?? Number.POSITIVE_INFINITY, ...all.map(highest));
  const first = Math.ceil(low / stepRpm) * stepRpm;
  if (!(high - first >= stepRpm))
    throw new Refusal("The pulls share no engine speeds in the band.", "Widen the band or repeat the pull.");
  const rpm = Array.from({ length: Math.floor((high - first) / stepRpm) + 1 }, (_, i) => first + i * stepRpm);
  const onGrid = (pulls: readonly Pull[]) => pulls.map((p) => interpolate(p.rpm, pullTorqueNm(p), rpm));
  const a = onGrid(before);
  const b = onGrid(after);
  for (const row of [...a, ...b]) for (const nm of row) within("torque", nm, 0.01, 2000, "Nm");
  const beforeNm = columnMeans(a);
  const afterNm = columnMeans(b);
  const gain = rpm.map((_, i) => (afterNm[i] ?? 0) / (beforeNm[i] ?? 1) - 1);
  const meanGain = mean(gain);
  return {
    rpm,
    beforeNm,
    afterNm,
    gain,
    meanGain,
    areaGain: mean(afterNm) / mean(beforeNm) - 1,
    test: gainTest(a.map(mean), b.map(mean)),
  };
}

const mean = (v: readonly number[]) => v.reduce((x, y) => x + y, 0) / v.length;
const columnMeans = (rows: readonly (readonly number[])[]) =>
  (rows[0] ?? []).map((_, i) => mean(rows.map((row) => row[i] ?? 0)));

/** Linear interpolation of unordered points on a rising grid inside their range. */
function interpolate(x: readonly number[], y: readonly number[], grid: readonly number[]): number[] {
  const points = x.map((v, i) => [v, y[i] ?? 0] as const).sort((p, q) => p[0] - q[0]);
  let k = 1;
  return grid.map((at) => {
    while ((points[k]?.[0] ?? at) < at) k++;
    const [x0, y0] = points[k - 1] ?? [at, 0];
    const [x1, y1] = points[k] ?? [at, y0];
    return x1 === x0 ? y1 : y0 + ((y1 - y0) * (at - x0)) / (x1 - x0);
  });
}
