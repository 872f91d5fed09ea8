import fc from "fast-check";
import { Matrix, inverse as mlInverse } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { calibrate, calibrationCertainty } from "@/lib/domain/tuning/calibrate";
import { calibrationPoint } from "@/lib/domain/tuning/calibrationPoint";
import { expectedLog, openingFor } from "@/lib/domain/tuning/expectedLog";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { heardIn, ownNoise, sessionSigma } from "@/lib/domain/tuning/heard";
import { addReading, addSums, integrateOut, nothingKnown, solved } from "@/lib/domain/tuning/information";
import type { CalibrationPoint, Lesson } from "@/lib/domain/tuning/lesson";
import { meanSigma, narrowings } from "@/lib/domain/tuning/narrowing";
import { posterior } from "@/lib/domain/tuning/posterior";
import {
  ACCEPTED_SIGMA,
  PRIOR_SIGMA,
  REGIONS,
  regionWeights,
  targetLambda,
} from "@/lib/domain/tuning/regions";
import {
  ACCEPTED_AT,
  type AskingBike,
  calibrateFromRides,
  heldAt,
  keptAir,
  type TaughtRide,
} from "@/lib/domain/tuning/ridden";
import * as spread from "@/lib/domain/tuning/spreads";
import { acceptedSigma, logRichness, resolve, stationAt } from "@/lib/domain/tuning/station";
import type { FuelState, ModelCardFacts, NeedleShape, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, PLAIN_AIR } from "./tuning-demo";

const settings: SettingValues = Object.fromEntries(
  Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]),
);
const state: FuelState = { card: DROVER, carburettors: 1, settings, reference: { settings, air: PLAIN_AIR } };
const point = (lift: number, error: number, more: Partial<CalibrationPoint> = {}): CalibrationPoint => ({
  kind: "wideband",
  weights: regionWeights(lift),
  error,
  sigma: 0.02,
  changed: 0,
  steady: true,
  ...more,
});
const lesson = (points: readonly CalibrationPoint[], more: Partial<Lesson> = {}): Lesson => ({
  bike: 0,
  build: "delivered",
  sensor: "",
  points,
  ...more,
});
const value = (lessons: readonly Lesson[], region: (typeof REGIONS)[number]) =>
  calibrate(lessons).find((c) => c.region === region)?.value ?? Number.NaN;

describe("evidence from an opening", () => {
  it("is how far the reading lies from the target, beyond what the model says has changed", () => {
    const at = (throttle: number, lambda: number) =>
      calibrationPoint(state, PLAIN_AIR, throttle, { kind: "wideband", lambda });
    expect(at(1, 0.88).error).toBeCloseTo(0, 12);
    expect(at(1, 0.92).error).toBeCloseTo(Math.log(0.88 / 0.92), 12);
    expect(at(0.25, 0.95).error).toBeCloseTo(Math.log(0.99 / 0.95), 12);
    expect(at(1, 0.88)).toMatchObject({ kind: "wideband", sigma: 0.02, changed: 0, steady: true });
    const opened: FuelState = { ...state, settings: { ...settings, airboxOpeningMm: 47 } };
    const r = resolve(opened, PLAIN_AIR);
    const model = logRichness(r, stationAt(r, "atmosphere", 1), r.now);
    const seen = calibrationPoint(opened, PLAIN_AIR, 1, {
      kind: "wideband",
      lambda: 0.88,
      sigma: 0.03,
      steady: false,
    });
    expect(model).toBeLessThan(-0.005);
    expect(seen.error).toBeCloseTo(-model, 12);
    expect(seen).toMatchObject({ changed: model, sigma: 0.03, steady: false });
  });

  it("does not hear what was learned before", () => {
    const taught = {
      ...state,
      calibration: REGIONS.map((region) => ({ region, value: 0.1, sigma: 0.02, samples: 1 })),
    };
    const seen = { kind: "wideband", lambda: 0.9 } as const;
    expect(calibrationPoint(taught, PLAIN_AIR, 0.5, seen)).toEqual(
      calibrationPoint(state, PLAIN_AIR, 0.5, seen),
    );
  });

  it("is on target for what was accepted, and 4 % off for what was felt (judgement)", () => {
    const kind = (k: CalibrationPoint["kind"]) => calibrationPoint(state, PLAIN_AIR, 0.5, { kind: k });
    expect(kind("accepted")).toMatchObject({ error: 0, sigma: ACCEPTED_SIGMA });
    expect(kind("felt lean")).toMatchObject({ error: -0.04, sigma: 0.05 });
    expect(kind("felt rich")).toMatchObject({ error: 0.04, sigma: 0.05 });
  });

  it("is placed where the slide is for the vents that the card knows", () => {
    const weights = (ventedTo: "atmosphere" | "airbox") => {
      const card = { ...DROVER, ventedTo: { value: ventedTo, how: "read" as const } };
      const own = { ...state, card };
      const seen = calibrationPoint(own, PLAIN_AIR, 0.4, { kind: "accepted" }).weights;
      expect(seen).toEqual(stationAt(resolve(own, PLAIN_AIR), ventedTo, 0.4).weights);
      return seen;
    };
    expect(weights("airbox").main).toBeLessThan(weights("atmosphere").main);
  });

  it("needs an opening, a lambda and a sigma that can be", () => {
    const seen = (throttle: number, lambda?: number, sigma?: number) => () =>
      calibrationPoint(state, PLAIN_AIR, throttle, {
        kind: "wideband",
        ...(lambda === undefined ? {} : { lambda }),
        ...(sigma === undefined ? {} : { sigma }),
      });
    expect(seen(1.1, 0.9)).toThrow("throttle is 1.1");
    expect(seen(-0.1, 0.9)).toThrow("throttle is -0.1");
    expect(seen(1)).toThrow("has no lambda");
    expect(seen(1, 0.4)).toThrow("lambda is 0.4");
    expect(seen(1, 0.9, 0.3)).toThrow("lambda sigma is 0.3");
  });
});

describe("noise of a lesson", () => {
  it("has a source for each of its spreads", () => {
    const { MODEL_SPREAD, BIAS_IN_READING: _, ...others } = spread;
    const all = [...Object.values(MODEL_SPREAD), ...Object.values(others)];
    expect(all.length).toBeGreaterThan(8);
    for (const { source } of all) expect(source).toMatch(/^judgement: \w/);
  });

  it("is what the sensor's bias leaves of a reading, at least 1.2 %, and 5 % for what is felt (judgement)", () => {
    expect(ownNoise(point(1, 0, { sigma: 0.02 }))).toBeCloseTo(Math.sqrt(0.02 ** 2 - 0.015 ** 2), 9);
    expect(ownNoise(point(1, 0, { sigma: 0.015 }))).toBeCloseTo(0.012, 9);
    expect(ownNoise(point(1, 0, { kind: "accepted", sigma: 0.03 }))).toBe(0.05);
    expect(ownNoise(point(1, 0, { kind: "felt lean", sigma: 0.08 }))).toBe(0.08);
  });

  it("is shared by a session: 0.9 % by instrument, 2 % by feel, and three tenths of what had changed", () => {
    expect(sessionSigma(lesson([point(1, 0), point(0.5, 0)]))).toBeCloseTo(0.009, 12);
    expect(sessionSigma(lesson([point(1, 0, { kind: "accepted" })]))).toBeCloseTo(0.02, 12);
    expect(sessionSigma(lesson([point(1, 0, { kind: "accepted" }), point(1, 0)]))).toBeCloseTo(0.009, 12);
    const changed = lesson([point(1, 0, { changed: 0.1 }), point(0.5, 0, { changed: -0.3 })]);
    expect(sessionSigma(changed)).toBeCloseTo(Math.hypot(0.009, 0.3 * 0.2), 12);
  });

  it("is heard once: the same lesson with the same weights is not listened to again, with others it is", () => {
    const one = lesson([point(1, 0.02), point(0.5, 0.01)]);
    const all = heardIn(one, () => 1);
    expect(heardIn(one, () => 1)).toBe(all);
    const half = heardIn(one, () => 0.5);
    expect(half).not.toBe(all);
    expect(half.precision[3]?.[3] ?? 9).toBeLessThan(all.precision[3]?.[3] ?? 0);
    // One of its points counting otherwise is another hearing.
    const both = heardIn(one, () => 1);
    const first = heardIn(one, (p) => (p === one.points[0] ? 1 : 0));
    expect(first.precision).not.toEqual(both.precision);
    expect(
      heardIn(lesson([point(1, 0.02, { steady: false })]), () => 1)
        .precision.flat()
        .every((p) => p === 0),
    ).toBe(true);
  });
});

describe("a ride without an instrument", () => {
  it("says nothing of the idle circuit, and an instrument's reading of it does (common practice)", () => {
    const idle = (kind: CalibrationPoint["kind"]) => heardIn(lesson([point(0, 0.02, { kind })]), () => 1);
    expect(idle("accepted").precision[0]).toEqual(new Array(5).fill(0));
    expect(idle("wideband").precision[0]?.[0]).toBeGreaterThan(0);
    expect(idle("felt lean").precision[0]?.[0]).toBeGreaterThan(0);
  });
});

describe("information", () => {
  const rowsOf = fc.array(
    fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 }),
    {
      minLength: 6,
      maxLength: 6,
    },
  );
  const filled = (rows: readonly (readonly number[])[]) => {
    const all = nothingKnown(4);
    for (let i = 0; i < 4; i++)
      addReading(
        all,
        [0, 1, 2, 3].map((j) => (i === j ? 1 : 0)),
        0.1 * i,
        2,
      );
    rows.forEach((row, k) => {
      addReading(all, row, 0.3 - 0.1 * k, 1 + k);
    });
    return all;
  };

  it("adds up readings as weighted least squares does (ml-matrix 6.15.1)", () => {
    fc.assert(
      fc.property(rowsOf, (rows) => {
        const { mean, covariance } = solved(filled(rows));
        const eye = [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => (i === j ? 1 : 0)));
        const x = new Matrix([...eye, ...rows.map((r) => [...r])]);
        const w = Matrix.diag([2, 2, 2, 2, 1, 2, 3, 4, 5, 6]);
        const y = Matrix.columnVector([0, 0.1, 0.2, 0.3, ...rows.map((_, k) => 0.3 - 0.1 * k)]);
        const cov = mlInverse(x.transpose().mmul(w).mmul(x));
        const b = cov.mmul(x.transpose()).mmul(w).mmul(y);
        mean.forEach((m, i) => {
          expect(m).toBeCloseTo(b.get(i, 0), 8);
          covariance[i]?.forEach((c, j) => {
            expect(c).toBeCloseTo(cov.get(i, j), 8);
          });
        });
      }),
      { numRuns: 30 },
    );
  });

  it("keeps mean and covariance of the states that stay when others are integrated out (marginal of a normal)", () => {
    fc.assert(
      fc.property(rowsOf, fc.constantFrom(1, 2, 3), (rows, keep) => {
        const all = filled(rows);
        const whole = solved(all);
        const marginal = integrateOut(all, keep);
        expect([marginal.pull.length, marginal.precision.length]).toEqual([keep, keep]);
        const left = solved(marginal);
        expect(left.mean).toHaveLength(keep);
        left.mean.forEach((m, i) => {
          expect(m).toBeCloseTo(whole.mean[i] ?? 9, 8);
          left.covariance[i]?.forEach((c, j) => {
            expect(c).toBeCloseTo(whole.covariance[i]?.[j] ?? 9, 8);
          });
        });
      }),
      { numRuns: 30 },
    );
  });

  it("on sums of states is the same as readings of those sums", () => {
    const some = nothingKnown(2);
    addReading(some, [1, 0.5], 0.2, 3);
    addReading(some, [-0.3, 1], 0.1, 2);
    const places = [
      [0, 2],
      [1, 2, 3],
    ];
    const summed = filled([]);
    addSums(summed, some, places);
    const direct = filled([]);
    addReading(direct, [1, 0.5, 1.5, 0.5], 0.2, 3);
    addReading(direct, [-0.3, 1, 0.7, 1], 0.1, 2);
    summed.precision.forEach((row, i) => {
      row.forEach((p, j) => {
        expect(p).toBeCloseTo(direct.precision[i]?.[j] ?? 9, 12);
      });
    });
    summed.pull.forEach((p, i) => {
      expect(p).toBeCloseTo(direct.pull[i] ?? 9, 12);
    });
  });

  it("that determines nothing is refused", () => {
    expect(() => solved(nothingKnown(2))).toThrow(Refusal);
  });
});

/** A mixed model's covariance of two readings, written out: model by build, bike, feel or sensor, session, noise. */
function together(lessons: readonly Lesson[], build: Lesson["build"]) {
  const square = (s: { readonly sigma: number }) => s.sigma ** 2;
  const row = (l: Lesson, p: CalibrationPoint, at: number) => ({
    x: REGIONS.map((r) => (r === "pilot" && p.kind === "accepted" ? 0 : p.weights[r])),
    y: p.error,
    build: l.build,
    bike: l.bike,
    sensor: p.kind === "wideband" ? l.sensor : null,
    session: at,
    shared: sessionSigma(l) ** 2,
    noise: ownNoise(p) ** 2,
  });
  const rows = [
    ...lessons.flatMap((l, at) => l.points.map((p) => row(l, p, at))),
    ...REGIONS.map((_, i) => ({
      x: REGIONS.map((_r, j) => (i === j ? 1 : 0)),
      y: 0,
      build,
      bike: 0,
      sensor: null,
      session: -1 - i,
      shared: 0,
      noise: square(spread.REFERENCE_NOISE),
    })),
  ];
  type Row = (typeof rows)[number];
  const common = (a: Row, b: Row) =>
    REGIONS.reduce((sum, r, i) => {
      const region =
        (a.build === b.build ? square(spread.MODEL_SPREAD[r]) : 0) +
        (a.bike === b.bike ? square(spread.BIKE_SPREAD) : 0) +
        (a.sensor === null && b.sensor === null ? square(spread.FEEL_BIAS) : 0);
      return sum + (a.x[i] ?? 0) * (b.x[i] ?? 0) * region;
    }, 0);
  const K = new Matrix(
    rows.map((a, i) =>
      rows.map(
        (b, j) =>
          common(a, b) +
          (a.sensor !== null && a.sensor === b.sensor ? square(spread.SENSOR_BIAS) : 0) +
          (a.session === b.session ? a.shared : 0) +
          (i === j ? a.noise : 0),
      ),
    ),
  );
  const own = REGIONS.map((r) => square(spread.MODEL_SPREAD[r]));
  const k = new Matrix(
    REGIONS.map((_, i) =>
      rows.map(
        (a) =>
          (a.x[i] ?? 0) *
          ((a.build === build ? (own[i] ?? 0) : 0) + (a.bike === 0 ? square(spread.BIKE_SPREAD) : 0)),
      ),
    ),
  );
  const gain = k.mmul(mlInverse(K));
  const explained = gain.mmul(k.transpose());
  return {
    mean: gain.mmul(Matrix.columnVector(rows.map((a) => a.y))).to1DArray(),
    covariance: REGIONS.map((_, i) =>
      REGIONS.map(
        (_r, j) => (i === j ? (own[i] ?? 0) + square(spread.BIKE_SPREAD) : 0) - explained.get(i, j),
      ),
    ),
  };
}

const anyLesson = fc.record({
  bike: fc.integer({ min: 0, max: 2 }),
  build: fc.constantFrom("delivered" as const, "modified" as const),
  sensor: fc.constantFrom("", "other"),
  points: fc
    .tuple(
      fc.constantFrom("wideband" as const, "accepted" as const),
      fc.array(
        fc.record({
          lift: fc.double({ min: 0, max: 1, noNaN: true }),
          error: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
          changed: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
        }),
        { minLength: 1, maxLength: 4 },
      ),
    )
    .map(([kind, list]) => list.map(({ lift, error, changed }) => point(lift, error, { kind, changed }))),
});

describe("a posterior", () => {
  // Best linear unbiased prediction: covariance with the readings times the inverse of theirs (textbook; ml-matrix 6.15.1).
  it("is what generalised least squares makes of any lessons: builds, bikes, sensors, feel, sessions", () => {
    fc.assert(
      fc.property(
        fc.array(anyLesson, { maxLength: 5 }),
        fc.constantFrom("delivered" as const, "modified" as const),
        (lessons, build) => {
          const found = posterior(lessons, build, () => 1);
          const { mean, covariance } = together(lessons, build);
          REGIONS.forEach((_, i) => {
            expect(found.mean[i]).toBeCloseTo(mean[i] ?? 9, 8);
            REGIONS.forEach((_r, j) => {
              expect(found.covariance[i]?.[j]).toBeCloseTo(covariance[i]?.[j] ?? 9, 8);
            });
          });
        },
      ),
      { numRuns: 40 },
    );
  });
  // A normal mean with known variance: precisions add, and the mean is their weighted one (textbook).
  it("of one perfect view of one region is the product of its prior, the reference and the reading", () => {
    const weights = { pilot: 0, straight: 0, taper: 0, main: 1 };
    const [read] = [lesson([point(1, 0.04, { weights })])];
    const noise = Math.hypot(0.009, spread.SENSOR_BIAS.sigma, ownNoise(point(1, 0)));
    const reference = Math.hypot(spread.FEEL_BIAS.sigma, spread.REFERENCE_NOISE.sigma);
    const precision = noise ** -2 + reference ** -2 + PRIOR_SIGMA.main ** -2;
    const found = posterior([read], "delivered", () => 1);
    expect(found.mean[3]).toBeCloseTo((0.04 * noise ** -2) / precision, 9);
    expect(found.covariance[3]?.[3]).toBeCloseTo(1 / precision, 9);
    expect(found.mean.slice(0, 3)).toEqual([0, 0, 0].map(() => expect.closeTo(0, 12)));
    // A reading that counts half has twice the variance of its own noise, and the session's and the sensor's stay.
    const half = Math.hypot(0.009, spread.SENSOR_BIAS.sigma, Math.SQRT2 * ownNoise(point(1, 0)));
    const less = half ** -2 + reference ** -2 + PRIOR_SIGMA.main ** -2;
    expect(posterior([read], "delivered", () => 0.5).mean[3]).toBeCloseTo((0.04 * half ** -2) / less, 9);
  });
});

describe("corrections of a bike", () => {
  it("count a region as sampled from three tenths of a steady instrument's reading on (judgement)", () => {
    const samples = (...points: CalibrationPoint[]) =>
      Object.fromEntries(calibrate([lesson(points)]).map((c) => [c.region, c.samples]));
    expect(samples(point(0.5, 0))).toEqual({ pilot: 0, straight: 0, taper: 1, main: 0 });
    expect(samples(point(0.7, 0), point(0.06, 0))).toEqual({ pilot: 1, straight: 1, taper: 1, main: 1 });
    expect(samples(point(1, 0, { kind: "accepted" }), point(1, 0, { steady: false }))).toMatchObject({
      main: 0,
    });
  });

  it("move towards what was read, by as much as the reading outweighs what was known", () => {
    const read = value([lesson([point(1, 0.03)])], "main");
    expect(read).toBeGreaterThan(0.015);
    expect(read).toBeLessThan(0.03);
    expect(value([lesson([point(1, -0.03)])], "main")).toBeCloseTo(-read, 9);
    expect(value([lesson([point(1, 0.03, { steady: false })])], "main")).toBe(0);
    expect(value([lesson([point(1, 0.03)], { bike: 3 })], "main")).toBeLessThan(read);
    expect(value([lesson([point(1, 0.03)], { build: "modified" })], "main")).toBeLessThan(read);
  });

  it("are told the same with or without their values: certainty alone has the same sigmas", () => {
    const lessons = [lesson([point(1, 0.03), point(0.4, -0.02)]), lesson([point(0.1, 0)], { bike: 2 })];
    const whole = calibrate(lessons);
    const sure = calibrationCertainty(lessons, "delivered");
    expect(sure.map((c) => c.sigma)).toEqual(whole.map((c) => c.sigma));
    expect(sure.map((c) => [c.value, c.samples])).toEqual(REGIONS.map(() => [0, 0]));
    for (const c of calibrate([])) expect(c.sigma).toBeCloseTo(acceptedSigma(c.region), 9);
    whole.forEach((c, i) => {
      expect(c.covariance?.[i]).toBeCloseTo(c.sigma ** 2, 12);
    });
  });

  it("hear what was felt on its own side only, and are no surer for it", () => {
    const felt = (kind: "felt lean" | "felt rich", error: number) => [
      lesson([point(1, error, { kind, sigma: 0.05 })]),
    ];
    expect(value(felt("felt lean", -0.04), "main")).toBeLessThan(-0.001);
    expect(value(felt("felt rich", 0.04), "main")).toBeGreaterThan(0.001);
    const lean = [lesson([point(1, -0.1)]), ...felt("felt lean", -0.04)];
    expect(value(lean, "main")).toBeCloseTo(value([lesson([point(1, -0.1)])], "main"), 9);
    const rich = [lesson([point(1, 0.1)]), ...felt("felt rich", 0.04)];
    expect(value(rich, "main")).toBeCloseTo(value([lesson([point(1, 0.1)])], "main"), 9);
    const sigma = (lessons: readonly Lesson[]) => calibrate(lessons).map((c) => c.sigma);
    expect(sigma(felt("felt lean", -0.04))).toEqual(sigma([]));
  });

  it("give a lone reading far off less than its share (Huber), so that twice as far moves less than twice", () => {
    const near = value([lesson([point(1, 0.04)])], "main");
    const far = value([lesson([point(1, 0.4)])], "main");
    expect(far).toBeLessThan(5 * near);
    expect(far).toBeGreaterThan(near);
  });

  // Huber 1964: a residual beyond 1.345 of its standard deviation counts 1.345 of it over its size; here it is checked on the settled fit.
  it("settle where each reading counts by Huber's weight against the fit that those weights make", () => {
    const far = [
      lesson([point(1, 0.3), point(0.4, -0.25), point(0.1, 0.02)]),
      lesson([point(0.9, -0.35), point(0.2, 0.3)], { bike: 2, sensor: "other" }),
      lesson([point(0.6, 0.4, { kind: "accepted" })], { bike: 3 }),
      lesson([point(0.5, -0.3, { kind: "accepted" })]),
    ];
    const fit = calibrate(far);
    const deviation = (p: CalibrationPoint, l: Lesson) =>
      Math.hypot(
        ownNoise(p),
        sessionSigma(l),
        p.kind === "wideband" ? spread.SENSOR_BIAS.sigma : 0,
        l.bike === 0 ? 0 : Math.SQRT2 * spread.BIKE_SPREAD.sigma,
      );
    const huber = (p: CalibrationPoint, l: Lesson) => {
      const off = p.error - REGIONS.reduce((sum, r, i) => sum + p.weights[r] * (fit[i]?.value ?? 9), 0);
      return Math.min(1, (1.345 * deviation(p, l)) / Math.abs(off));
    };
    expect(far.flatMap((l) => l.points.map((p) => huber(p, l))).filter((w) => w < 1)).not.toHaveLength(0);
    posterior(far, "delivered", huber).mean.forEach((m, i) => {
      expect(fit[i]?.value).toBeCloseTo(m, 3);
    });
    // Eight rounds from the fit in which each counts whole.
    let mean = posterior(far, "delivered", () => 1).mean;
    for (let round = 1; round <= 8; round++) {
      const last = mean;
      const counts = (p: CalibrationPoint, l: Lesson) => {
        const off = p.error - REGIONS.reduce((sum, r, i) => sum + p.weights[r] * (last[i] ?? 9), 0);
        return Math.min(1, (1.345 * deviation(p, l)) / Math.abs(off));
      };
      ({ mean } = posterior(far, "delivered", counts));
    }
    expect(fit.map((c) => c.value)).toEqual(mean.map((m) => expect.closeTo(m, 9)));
  });

  it("hear a lesson of which only some points are steady, by those alone", () => {
    const mixed = [lesson([point(1, 0.03), point(0.5, 0.2, { steady: false })])];
    const steady = [lesson([point(1, 0.03)])];
    expect(calibrate(mixed).map((c) => c.value)).toEqual(calibrate(steady).map((c) => c.value));
    expect(calibrate(mixed).map((c) => c.samples)).toEqual(calibrate(steady).map((c) => c.samples));
    expect(value(mixed, "main")).toBeGreaterThan(0.01);
  });

  it("give another bike's reading the room that bikes differ by, 3 % each: 8 % off counts whole there, 50 % does not", () => {
    const other = (error: number) => value([lesson([point(1, error)], { bike: 3 })], "main");
    expect(other(0.08) / other(0.04)).toBeCloseTo(2, 6);
    expect(other(0.5) / other(0.25)).toBeLessThan(1.9);
  });

  it("refuse a reading that is none, by name", () => {
    const odd = (more: Partial<CalibrationPoint>) => () => calibrate([lesson([point(1, 0, more)])]);
    expect(odd({ sigma: 0 })).toThrow("sigma of a reading is 0");
    expect(odd({ error: 4 })).toThrow("log richness of a reading is 4");
    expect(odd({ weights: { pilot: 0, straight: 0, taper: 0, main: 2 } })).toThrow(
      "weight of the main region is 2",
    );
    const silent = { pilot: 0, straight: 0, taper: 0, main: 0 };
    expect(odd({ weights: silent })).toThrow("speaks of no region");
    expect(odd({ weights: silent, steady: false })).not.toThrow();
  });
});

const bike: AskingBike = { id: 7, card: DROVER, carburettors: 1, reference: { settings, air: PLAIN_AIR } };
const full = { throttle: 1, lambda: 0.9, sigma: 0.015, rpm: 6000, seconds: 4 };
const ride = (more: Partial<TaughtRide> = {}): TaughtRide => ({
  kind: "wideband",
  settings,
  air: keptAir(PLAIN_AIR),
  at: [full],
  bikeId: 7,
  current: true,
  ...more,
});

describe("rides kept", () => {
  it("keep the air's numbers and the bin's, its engine speed where there is one", () => {
    expect(keptAir(PLAIN_AIR)).toEqual({ pressurePa: 101_325, temperatureK: 293.15, humidity: 0.4 });
    const bin = { throttle: 0.5, lambda: 0.9, sigma: 0.01, rpm: 5000, samples: 9, seconds: 3 };
    expect(heldAt(bin)).toEqual({ throttle: 0.5, lambda: 0.9, sigma: 0.01, rpm: 5000, seconds: 3 });
    expect(heldAt({ ...bin, rpm: null })).not.toHaveProperty("rpm");
    expect(ACCEPTED_AT.map((at) => at.throttle)).toEqual([0.02, 0.125, 0.25, 0.5, 0.75, 1]);
  });

  it("measure a region on this bike as it is set now and since its last work, by an instrument, held long enough", () => {
    const measured = (...rides: TaughtRide[]) =>
      calibrateFromRides(bike, rides).find((c) => c.region === "main")?.measured;
    expect(measured(ride())).toBe(true);
    expect(measured()).toBe(false);
    expect(measured(ride({ bikeId: 8 }))).toBe(false);
    expect(measured(ride({ current: false }))).toBe(false);
    expect(measured(ride({ kind: "accepted" }))).toBe(false);
    expect(measured(ride({ settings: { ...settings, mainJet: 145 } }))).toBe(false);
    expect(measured(ride({ at: [{ ...full, seconds: 1 }] }))).toBe(false);
    const { rpm: _, ...noSpeed } = full;
    expect(measured(ride({ at: [noSpeed] }))).toBe(false);
    const { seconds: __, ...noTime } = full;
    expect(measured(ride({ at: [noTime] }))).toBe(false);
    expect(measured(ride({ bikeId: 8 }), ride())).toBe(true);
  });

  it("compare each reading with the model's answer for its own settings and air", () => {
    const main = (rides: readonly TaughtRide[]) =>
      calibrateFromRides(bike, rides).find((c) => c.region === "main")?.value ?? 0;
    // 2.3 % leaner than the target with the fitted jet; the same lambda with a larger jet is leaner than the model says.
    expect(main([ride()])).toBeLessThan(0);
    expect(main([ride({ settings: { ...settings, mainJet: 150 } })])).toBeLessThan(main([ride()]));
    const thin = { pressurePa: 85_000, temperatureK: 293.15, humidity: 0.4 };
    expect(main([ride({ air: thin })])).toBeLessThan(main([ride()]));
    expect(main([ride({ kind: "felt", at: [{ throttle: 1, sign: "rich" }] })])).toBeGreaterThan(0);
    expect(main([ride({ kind: "felt", at: [{ throttle: 1, sign: "lean" }] })])).toBeLessThan(0);
    const slim = {
      ...(DROVER.needle?.value ?? {
        straightMm: 2.5,
        straightLiftMm: 6,
        clipAt: 3,
        clipStepMm: 1,
        clips: 5,
        tapers: [],
      }),
      straightMm: 2.4,
    };
    const taper = (needle?: typeof slim) =>
      calibrateFromRides(bike, [
        ride({ at: [{ ...full, throttle: 0.4, lambda: 0.97 }], ...(needle ? { needle } : {}) }),
      ]).find((c) => c.region === "taper")?.value ?? 0;
    expect(taper(slim)).toBeLessThan(taper() - 0.001);
  });

  it("are another bike's where they are, and as sure as their instrument", () => {
    const sigma = (one: TaughtRide) =>
      calibrateFromRides(bike, [one]).find((c) => c.region === "main")?.sigma ?? 9;
    expect(sigma(ride({ bikeId: 8 }))).toBeGreaterThan(sigma(ride()));
    const read = (of: number) => ride({ at: [{ ...full, sigma: of }] });
    expect(sigma(read(0.06))).toBeGreaterThan(sigma(read(0.02)));
    const { sigma: _, ...unsaid } = full;
    expect(sigma(ride({ at: [unsaid] }))).toBe(sigma(read(0.02)));
  });

  it("were made with the card's needle where no other is named, whatever the asking bike has", () => {
    const slim = { ...(DROVER.needle?.value as NeedleShape), straightMm: 2.4 };
    const own: AskingBike = {
      ...bike,
      reference: { ...bike.reference, needle: { value: slim, how: "measured" } },
    };
    const half = [{ ...full, throttle: 0.3, lambda: targetLambda(0.3) }];
    const moved = (one: TaughtRide) => Math.abs(calibrateFromRides(own, [one])[2]?.value ?? 9);
    // On target with the thicker needle: the bike with the slimmer one is then leaner than the model says, or the model says nothing.
    expect(moved(ride({ at: half, needle: slim }))).toBeLessThan(1e-9);
    expect(moved(ride({ at: half }))).toBeGreaterThan(0.002);
    const { needle: _, ...bare } = DROVER;
    const unknown = { ...own, card: bare };
    expect(Math.abs(calibrateFromRides(unknown, [ride({ at: half })])[2]?.value ?? 9)).toBeLessThan(1e-9);
  });

  it("tell two sensors' biases apart: two instruments that agree narrow more than one twice", () => {
    const sigma = (sensor: string) =>
      calibrateFromRides(bike, [ride({ sensor: "a" }), ride({ sensor })]).find((c) => c.region === "main")
        ?.sigma ?? 0;
    expect(sigma("b")).toBeLessThan(sigma("a"));
    const unnamed = calibrateFromRides(bike, [ride(), ride()]).find((c) => c.region === "main")?.sigma;
    expect(unnamed).toBeCloseTo(sigma("a"), 12);
  });
});

describe("what to measure next", () => {
  it("is held where the region decides most: idle for the pilot, full throttle for the main", () => {
    expect(openingFor(bike, "pilot")).toBe(0.02);
    expect(openingFor(bike, "main")).toBe(1);
    for (const region of ["straight", "taper"] as const) {
      const at = openingFor(bike, region);
      expect(at).not.toBeNull();
      const r = resolve({ ...bike, settings }, PLAIN_AIR);
      const weights = stationAt(r, "atmosphere", at ?? 0).weights;
      expect(Math.max(...REGIONS.map((each) => weights[each]))).toBe(weights[region]);
    }
  });

  it("is the least of the openings that decide alike, and none where a region leads nowhere", () => {
    const sprung = (rate: number): AskingBike => ({
      ...bike,
      card: { ...DROVER, springRateNPerM: { value: rate, how: "read" } },
    });
    // So soft a spring lets the slide up before full grip: from there on the main jet decides alike.
    const full = [0.3, 0.35, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1].map((throttle) => {
      const r = resolve({ ...sprung(20), settings }, PLAIN_AIR);
      return [throttle, stationAt(r, "atmosphere", throttle).weights.main] as const;
    });
    const most = full.filter(([, main]) => main === full.at(-1)?.[1]).map(([throttle]) => throttle);
    expect(most.length).toBeGreaterThan(1);
    expect(openingFor(sprung(20), "main")).toBe(most[0]);
    // So stiff a one never lets it up.
    expect(openingFor(sprung(4000), "main")).toBeNull();
    expect(expectedLog(sprung(4000), "main", [])).toBeNull();
    const names = narrowings({ ...sprung(4000), settings }, PLAIN_AIR).map((n) => n.name);
    expect(names.join()).not.toContain("full throttle");
  });

  it("would read what each region is expected to be, by its share", () => {
    const expected = REGIONS.map((region, i) => ({ region, value: 0.01 * (i + 1), sigma: 0.02, samples: 0 }));
    const log = expectedLog(bike, "taper", expected);
    const throttle = log?.at[0]?.throttle ?? 0;
    const { weights } = calibrationPoint(state, PLAIN_AIR, throttle, { kind: "accepted" });
    const richer = REGIONS.reduce((sum, r, i) => sum + weights[r] * 0.01 * (i + 1), 0);
    expect(log?.at[0]?.lambda).toBeCloseTo(targetLambda(throttle) * Math.exp(-richer), 9);
    const [, , taper] = expected;
    if (!taper) throw new Error("no taper");
    expect(expectedLog(bike, "taper", [taper])?.at[0]?.lambda).toBeCloseTo(
      targetLambda(throttle) * Math.exp(-0.03 * weights.taper),
      9,
    );
  });

  it("would read what is expected there, long enough to count", () => {
    const log = expectedLog(bike, "main", []);
    expect(log).toMatchObject({ kind: "wideband", settings, air: keptAir(PLAIN_AIR) });
    expect(log?.at).toHaveLength(1);
    expect(log?.at[0]).toMatchObject({ throttle: 1, sigma: 0.015, seconds: 2 });
    expect(log?.at[0]?.lambda).toBeCloseTo(targetLambda(1), 9);
    const leaner = expectedLog(
      bike,
      "main",
      REGIONS.map((region) => ({ region, value: -0.05, sigma: 0.02, samples: 0 })),
    );
    expect(leaner?.at[0]?.lambda).toBeCloseTo(targetLambda(1) * Math.exp(0.05), 9);
  });

  it("promises of each fact what the card measured at the stand-in's value does", () => {
    const changed: FuelState = {
      ...state,
      settings: {
        ...settings,
        airboxOpeningMm: 47,
        snorkelFitted: 0,
        springLengthMm: 100,
        springCoils: 17.8,
      },
      needle: { value: { ...(DROVER.needle?.value as NeedleShape), straightMm: 2.45 }, how: "computed" },
    };
    const measured = meanSigma(changed, PLAIN_AIR);
    const promised = (card: ModelCardFacts, fact: string) =>
      narrowings({ ...changed, card }, PLAIN_AIR).find((n) => "fact" in n.what && n.what.fact === fact)?.then;
    for (const [fact, name] of [
      ["needleJetMm", "The needle jet's bore"],
      ["needle", "The needle's shape"],
      ["boreMm", "The carburettor's bore"],
      ["diaphragmMm", "The diaphragm's diameter"],
      ["slideMassG", "The slide's mass"],
      ["springRateNPerM", "The slide spring's rate"],
      ["springInstalledMm", "The spring's length with the slide shut"],
      ["snorkelMm", "The snorkel's inside diameter"],
      ["snorkelHoleMm", "The hole left with the snorkel out"],
      ["jetConvention", "How the jets are numbered"],
      ["ratedRpm", "The speed of rated power"],
      ["fuel", "The fuel"],
    ] as const) {
      const card = { ...DROVER, [fact]: { ...DROVER[fact], how: "assumed" } } as ModelCardFacts;
      expect(promised(card, fact), name).toBeCloseTo(measured, 9);
    }
    const unknown = { ...DROVER, ventedTo: { value: "unknown", how: "read" } } as const;
    expect(promised(unknown, "ventedTo")).toBeCloseTo(measured, 9);
    expect(promised(DROVER, "boreMm")).toBeUndefined();
    // What narrows nothing is left out: the curve asks where it is vented, not who said so.
    const guessed = { ...DROVER, ventedTo: { value: "atmosphere", how: "assumed" } } as const;
    expect(promised(guessed, "ventedTo")).toBeUndefined();
    // Without any, a needle jet 4 % wider than the needle that was accepted (judgement).
    const { needleJetMm: _, ...bare } = DROVER;
    const thin = {
      value: { ...(DROVER.needle?.value as NeedleShape), straightMm: 2.4 },
      how: "read" as const,
    };
    const other = { ...changed, reference: { ...changed.reference, needle: thin } };
    const jet = narrowings({ ...other, card: bare }, PLAIN_AIR).find((n) => n.name.includes("jet's bore"));
    const card = { ...bare, needleJetMm: { value: 2.4 * 1.04, how: "read" as const } };
    expect(jet?.then).toBeCloseTo(meanSigma({ ...other, card }, PLAIN_AIR), 9);
  });

  it("names each assumed fact and each region by how much it would narrow the band, best first", () => {
    const { needleJetMm: _, snorkelMm: __, ...bare } = DROVER;
    const changed: FuelState = {
      ...state,
      card: bare,
      settings: { ...settings, airboxOpeningMm: 47, snorkelFitted: 0 },
    };
    const list = narrowings(changed, PLAIN_AIR);
    const names = list.map((n) => ("fact" in n.what ? n.what.fact : n.what.region));
    expect(names).toEqual(
      expect.arrayContaining(["needleJetMm", "snorkelMm", "pilot", "straight", "taper", "main"]),
    );
    expect(names).not.toContain("boreMm");
    expect(list.map((n) => n.then)).toEqual(list.map((n) => n.then).toSorted((a, b) => a - b));
    for (const n of list) {
      expect(n.then).toBeLessThan(n.now);
      expect(n.because).toHaveLength(1);
    }
    const jet = list.find((n) => "fact" in n.what && n.what.fact === "needleJetMm");
    expect(jet?.because[0]).toEqual({
      fact: "The needle jet's bore is assumed",
      from: "model card",
      effect: "wider band",
    });
    const region = list.find((n) => "region" in n.what && n.what.region === "main");
    expect(region).toMatchObject({ because: [{ from: "calibration" }] });
    const logs = list.flatMap((n) => ("region" in n.what ? [[n.what.region, n.name]] : []));
    expect(Object.fromEntries(logs)).toEqual({
      pilot: "A lambda log at idle and just off it",
      straight: "A lambda log at an eighth to a quarter throttle",
      taper: "A lambda log at half throttle",
      main: "A lambda log at full throttle",
    });
    // The band is three sigma wide, a sigma and a half on either side.
    const { points } = fuelCurve(changed, PLAIN_AIR, 12);
    const mean = points.reduce((sum, p) => sum + Math.log(p.high / p.low) / 3, 0) / 12;
    expect(meanSigma(changed, PLAIN_AIR)).toBeCloseTo(mean, 12);
    expect(meanSigma(changed, PLAIN_AIR)).toBeGreaterThan(meanSigma({ ...changed, card: DROVER }, PLAIN_AIR));
    const guessed = narrowings(
      { ...changed, card: { ...DROVER, boreMm: { value: 37, how: "assumed" } } },
      PLAIN_AIR,
    );
    expect(guessed.some((n) => "fact" in n.what && n.what.fact === "boreMm")).toBe(true);
    const vents = narrowings(
      { ...changed, card: { ...DROVER, ventedTo: { value: "unknown", how: "read" } } },
      PLAIN_AIR,
    );
    expect(vents.some((n) => "fact" in n.what && n.what.fact === "ventedTo")).toBe(true);
  });
});
