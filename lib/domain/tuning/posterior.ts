import { type Counts, heardIn } from "./heard";
import { addReading, addSums, type Information, integrateOut, nothingKnown, solved } from "./information";
import { type Build, byInstrument, type Lesson } from "./lesson";
import { REGIONS } from "./regions";
import * as spread from "./spreads";

/** State: the model's error for this build, for the other build, what people feel, this bike's own error (four regions each), then one bias per sensor. */
const N = REGIONS.length;
const FELT_AT = 2 * N;
const BIKE_AT = 3 * N;
const SENSORS_AT = 4 * N;

export interface Posterior {
  /** Of this bike: model and bike together, by region. */
  readonly mean: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

/**
 * What is known of one bike of a build from all lessons: model + bike + sensor + session + noise, all Gaussian, solved exactly.
 * The reference settings stand as one accepted setup. Source: linear mixed model (Laird and Ware 1982); spreads from spreads.ts.
 */
export function posterior(lessons: readonly Lesson[], build: Build, counts: Counts): Posterior {
  const sensors = [...new Set(lessons.filter((l) => l.points.some(byInstrument)).map((l) => l.sensor))];
  const all = before(sensors.length);
  for (const bike of new Set(lessons.map((l) => l.bike))) {
    const own = bike === 0;
    const size = all.pull.length;
    const to = own ? all : nothingKnown(size + N);
    if (!own) for (let i = 0; i < N; i++) known(to, [size + i], spread.BIKE_SPREAD.sigma);
    for (const lesson of lessons.filter((l) => l.bike === bike)) {
      const model = lesson.build === build ? 0 : N;
      const instrument = lesson.points.some(byInstrument);
      const region = (i: number) => [
        model + i,
        (own ? BIKE_AT : size) + i,
        ...(instrument ? [] : [FELT_AT + i]),
      ];
      const sensor = instrument ? [SENSORS_AT + sensors.indexOf(lesson.sensor)] : [];
      addSums(to, heardIn(lesson, counts), [...REGIONS.map((_, i) => region(i)), sensor]);
    }
    if (!own)
      addSums(
        all,
        integrateOut(to, size),
        all.pull.map((_, i) => [i]),
      );
  }
  return ofThisBike(all);
}

/** What is known before any lesson: the spreads, and that the reference was accepted. */
function before(sensors: number): Information {
  const all = nothingKnown(SENSORS_AT + sensors);
  REGIONS.forEach((region, i) => {
    known(all, [i], spread.MODEL_SPREAD[region].sigma);
    known(all, [N + i], spread.MODEL_SPREAD[region].sigma);
    known(all, [FELT_AT + i], spread.FEEL_BIAS.sigma);
    known(all, [BIKE_AT + i], spread.BIKE_SPREAD.sigma);
    known(all, [i, BIKE_AT + i, FELT_AT + i], spread.REFERENCE_NOISE.sigma);
  });
  for (let k = 0; k < sensors; k++) known(all, [SENSORS_AT + k], spread.SENSOR_BIAS.sigma);
  return all;
}

/** The sum of these states is 0 within sigma. */
function known(all: Information, at: readonly number[], sigma: number): void {
  const row = all.pull.map((_, i) => (at.includes(i) ? 1 : 0));
  addReading(all, row, 0, sigma ** -2);
}

function ofThisBike(all: Information): Posterior {
  const { mean, covariance } = solved(all);
  const both = (i: number) => [i, BIKE_AT + i];
  const shared = (i: number, j: number) =>
    both(i).reduce((s, a) => s + both(j).reduce((t, b) => t + (covariance[a]?.[b] ?? 0), 0), 0);
  return {
    mean: REGIONS.map((_, i) => both(i).reduce((s, a) => s + (mean[a] ?? 0), 0)),
    covariance: REGIONS.map((_, i) => REGIONS.map((_, j) => shared(i, j))),
  };
}
