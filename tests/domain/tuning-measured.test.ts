import fc from "fast-check";
import { Matrix, inverse as mlInverse } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { calibrate } from "@/lib/domain/tuning/calibrate";
import { calibrationPoint } from "@/lib/domain/tuning/calibrationPoint";
import { comparePulls, pullTorqueNm } from "@/lib/domain/tuning/dyno";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { readLambdaLog } from "@/lib/domain/tuning/lambdaLog";
import type { CalibrationPoint, Lesson } from "@/lib/domain/tuning/lesson";
import { REGIONS, regionWeights, targetLambda } from "@/lib/domain/tuning/regions";
import { calibrateFromRides, heldAt, keptAir } from "@/lib/domain/tuning/ridden";
import { inverse } from "@/lib/domain/tuning/smallMatrix";
import * as spread from "@/lib/domain/tuning/spreads";
import { acceptedSigma } from "@/lib/domain/tuning/station";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import { OPENED, PLAIN_AIR } from "./tuning-demo";

const state = () => {
  const [c] = targetSettings(OPENED).carburettors;
  if (!c) throw new Error("no carburettor");
  return c.after;
};
const wide = (throttle: number, lambda: number, steady = true) =>
  calibrationPoint(state(), PLAIN_AIR, throttle, { kind: "wideband", lambda, steady });
const lesson = (points: readonly CalibrationPoint[], bike = 0): Lesson => ({
  bike,
  build: "delivered",
  sensor: "",
  points,
});
const oneRide = (points: readonly CalibrationPoint[]) => calibrate([lesson(points)]);
const point = (liftShare: number, error: number): CalibrationPoint => ({
  kind: "wideband",
  weights: regionWeights(liftShare),
  error,
  sigma: 0.02,
  changed: 0,
  steady: true,
});

describe("calibration", () => {
  it("inverts as ml-matrix 6.15.1 does, and refuses a singular matrix", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 16, maxLength: 16 }),
        (v) => {
          const rows = [0, 1, 2, 3].map((i) =>
            [0, 1, 2, 3].map((j) => (v[4 * i + j] ?? 0) + (i === j ? 6 : 0)),
          );
          const other = mlInverse(new Matrix(rows)).to2DArray();
          inverse(rows).forEach((row, i) => {
            row.forEach((x, j) => {
              expect(x).toBeCloseTo(other[i]?.[j] ?? 9, 10);
            });
          });
        },
      ),
    );
    expect(() =>
      inverse([
        [1, 2],
        [2, 4],
      ]),
    ).toThrow(Refusal);
  });
  it("inverts what has nothing or little on its diagonal by the largest pivot, of either sign (by hand)", () => {
    const turned = [
      [0, 0, 1],
      [1, 0, 0],
      [0, 1, 0],
    ];
    // A permutation's inverse is its transpose.
    expect(inverse(turned)).toEqual(turned.map((row, i) => row.map((_, j) => turned[j]?.[i])));
    expect(inverse([[-2]])).toEqual([[-0.5]]);
    // [[e, 1], [-1, 1]] has the inverse [[1, -1], [1, e]] / (1 + e): without the larger pivot six digits are lost.
    const e = 1e-10;
    const close = (rows: number[][]) => rows.flat().map((x) => expect.closeTo(x, 13));
    const by = 1 / (1 + e);
    expect(
      inverse([
        [e, 1],
        [-1, 1],
      ]).flat(),
    ).toEqual(
      close([
        [by, -by],
        [by, e * by],
      ]),
    );
    expect(
      inverse([
        [-1, 1],
        [e, 1],
      ]).flat(),
    ).toEqual(
      close([
        [-by, by],
        [e * by, by],
      ]),
    );
    expect(inverse([[1e-14]])[0]?.[0]).toBeCloseTo(1e14, -1);
    expect(() => inverse([[9e-15]])).toThrow("do not determine");
    expect(() => inverse([[-9e-15]])).toThrow("do not determine");
  });
  it("solves the mixed model as generalised least squares by ml-matrix does where nothing is an outlier", () => {
    const lifts = [0.02, 0.1, 0.2, 0.4, 0.6, 0.9, 1];
    const lessons = [
      lesson(lifts.map((x) => point(x, 0.01))),
      lesson(
        lifts.map((x) => point(x, 0.02)),
        3,
      ),
    ];
    const rows = lessons.flatMap((l) =>
      l.points.map((p) => ({ l, x: REGIONS.map((r) => p.weights[r]), y: p.error })),
    );
    const [B, S, T] = [spread.BIKE_SPREAD, spread.SENSOR_BIAS, spread.SESSION_BIAS].map(
      (s) => s.sigma ** 2,
    ) as [number, number, number];
    const model = REGIONS.map((r) => spread.MODEL_SPREAD[r].sigma ** 2);
    const noise = 0.02 ** 2 - spread.BIAS_IN_READING ** 2;
    const cross = (a: readonly number[], b: readonly number[], bike: boolean) =>
      a.reduce((sum, v, i) => sum + v * (b[i] ?? 0) * ((model[i] ?? 0) + (bike ? B : 0)), 0);
    // Readings: the model's error, each bike's own, one sensor, two sessions, noise. The reference is a reading of each region.
    const all = [
      ...rows.map((r) => ({ ...r, own: r.l.bike === 0, felt: -1 })),
      ...REGIONS.map((_, i) => ({
        x: REGIONS.map((_r, j) => (i === j ? 1 : 0)),
        y: 0,
        own: true,
        felt: i,
        l: null,
      })),
    ];
    const K = new Matrix(
      all.map((a, i) =>
        all.map(
          (b, j) =>
            cross(a.x, b.x, a.own === b.own) +
            (a.l && b.l ? S + (a.l === b.l ? T : 0) : 0) +
            (i !== j ? 0 : a.l ? noise : spread.FEEL_BIAS.sigma ** 2 + spread.REFERENCE_NOISE.sigma ** 2),
        ),
      ),
    );
    const k = new Matrix(
      REGIONS.map((_, i) => all.map((a) => (a.x[i] ?? 0) * ((model[i] ?? 0) + (a.own ? B : 0)))),
    );
    const gain = k.mmul(mlInverse(K));
    const mean = gain.mmul(Matrix.columnVector(all.map((a) => a.y))).to1DArray();
    const explained = gain.mmul(k.transpose());
    calibrate(lessons).forEach((c, i) => {
      expect(c.value).toBeCloseTo(mean[i] ?? 9, 9);
      expect(c.sigma).toBeCloseTo(Math.sqrt((model[i] ?? 0) + B - explained.get(i, i)), 9);
    });
  });
  it("answers the accepted reference where there is no lesson", () => {
    for (const c of calibrate([])) {
      expect(c.value).toBe(0);
      expect(c.sigma).toBeCloseTo(acceptedSigma(c.region), 12);
    }
  });
  it("finds a lean main from full-load lambda and leaves the unsampled regions as the accepted reference left them", () => {
    const now = fuelCurve(state(), PLAIN_AIR, 3).points[2]?.lambda ?? 0;
    const fitted = oneRide([1, 2, 3, 4, 5].map(() => wide(1, now * 1.05)));
    const main = fitted.find((c) => c.region === "main");
    expect(main?.value).toBeLessThan(-0.03);
    expect(main?.samples).toBe(5);
    const straight = fitted.find((c) => c.region === "straight");
    expect(straight?.value).toBeCloseTo(0, 2);
    expect(straight?.sigma).toBeCloseTo(acceptedSigma("straight"), 3);
    expect(straight?.samples).toBe(0);
    const richer = targetSettings({ ...OPENED, calibration: fitted }).carburettors[0]?.mainJet?.exact ?? 0;
    expect(richer).toBeGreaterThan(targetSettings(OPENED).carburettors[0]?.mainJet?.exact ?? 999);
  });
  it("does not fit transients, gives little weight to an outlier, and hears what was felt on one side only", () => {
    expect(oneRide([wide(1, 1.2, false)]).every((c) => c.value === 0)).toBe(true);
    const value = (points: CalibrationPoint[]) =>
      oneRide(points).find((c) => c.region === "main")?.value ?? 9;
    const calm = Array.from({ length: 8 }, () => point(1, 0));
    expect(Math.abs(value([...calm, point(1, -0.4)]))).toBeLessThan(0.01);
    const felt = (kind: "felt lean" | "felt rich", error: number): CalibrationPoint => ({
      ...point(1, error),
      kind,
      sigma: 0.04,
    });
    // One ride that felt lean moves a little, ten move more, and none of them narrows the band.
    expect(value([felt("felt lean", -0.04)])).toBeLessThan(-0.004);
    const ten = calibrate(Array.from({ length: 10 }, () => lesson([felt("felt lean", -0.04)])));
    expect(ten.find((c) => c.region === "main")?.value).toBeLessThan(-0.01);
    expect(ten.find((c) => c.region === "main")?.sigma).toBeCloseTo(acceptedSigma("main"), 9);
    const lean = Array.from({ length: 8 }, () => point(1, -0.1));
    expect(value([...lean, felt("felt lean", -0.04)])).toBeCloseTo(value(lean), 6);
  });
  it("takes an accepted setup as one observation at the target", () => {
    const p = calibrationPoint(state(), PLAIN_AIR, 1, { kind: "accepted" });
    expect(p.sigma).toBeCloseTo(0.05, 12);
    const lambda = fuelCurve(state(), PLAIN_AIR, 3).points[2]?.lambda ?? 0;
    expect(p.error).toBeCloseTo(Math.log(lambda / targetLambda(1)), 10);
    expect(() => calibrationPoint(state(), PLAIN_AIR, 1, { kind: "wideband" })).toThrow(/no lambda/);
  });
});

describe("lambda log", () => {
  const rows = Array.from({ length: 200 }, (_, i) => i);
  const log = {
    timeS: rows.map((i) => i * 0.1),
    throttle: rows.map((i) => (i < 100 ? 0.3 : 0.95)),
    lambda: rows.map((i) => (i < 100 ? 0.98 : i < 105 ? 1.3 : 0.87)),
    rpm: rows.map((i) => (i < 100 ? 4000 : 6000)),
  };
  it("bins steady samples and leaves out what follows a throttle movement", () => {
    const read = readLambdaLog(log);
    expect(read.bins).toHaveLength(2);
    expect(read.bins[0]?.lambda).toBeCloseTo(0.98, 10);
    expect(read.bins[1]?.lambda).toBeCloseTo(0.87, 10);
    expect(read.bins[1]?.rpm).toBe(6000);
    expect(read.bins[1]?.sigma).toBeCloseTo(0.015, 10);
    expect(read.transient).toBeGreaterThanOrEqual(6);
    expect(read.steady + read.transient + read.unreadable).toBe(200);
  });
  it("calibrates the regions it sampled", () => {
    const { card, carburettors, reference, settings } = state();
    const at = readLambdaLog(log).bins.map(heldAt);
    const ride = {
      kind: "wideband" as const,
      settings,
      air: keptAir(PLAIN_AIR),
      at,
      bikeId: 3,
      current: true,
    };
    const fitted = calibrateFromRides({ id: 3, card, carburettors, reference }, [ride]);
    expect(fitted.find((c) => c.region === "main")?.samples).toBe(1);
    expect(fitted.find((c) => c.region === "main")?.sigma).toBeLessThan(0.05);
    expect(fitted.find((c) => c.region === "pilot")?.samples).toBe(0);
  });
  it("counts unreadable samples, and refuses broken columns", () => {
    expect(
      readLambdaLog({ ...log, lambda: log.lambda.map((l, i) => (i === 3 ? Number.NaN : l)) }).unreadable,
    ).toBe(1);
    expect(() => readLambdaLog({ ...log, throttle: [] })).toThrow(/differ in length/);
    expect(() => readLambdaLog({ ...log, timeS: log.timeS.map(() => 1) })).toThrow(/does not run forward/);
  });
});

describe("dyno pulls", () => {
  const rpm = Array.from({ length: 41 }, (_, i) => 3000 + i * 100);
  const pull = (level: number) => ({
    rpm,
    torqueNm: rpm.map((n) => level * (50 - ((n - 5000) / 1000) ** 2)),
  });
  it("reports the gain over a band, per rpm, with the noise of repeats", () => {
    const seen = comparePulls([pull(1), pull(1.01)], [pull(1.06), pull(1.07)], {
      lowRpm: 3500,
      highRpm: 6500,
    });
    expect(seen.rpm[0]).toBe(3500);
    expect(seen.rpm.at(-1)).toBe(6500);
    expect(seen.meanGain).toBeCloseTo(1.065 / 1.005 - 1, 10);
    expect(seen.areaGain).toBeCloseTo(seen.meanGain, 10);
    // Half the difference of two pulls is the standard error of their mean, per side.
    expect(seen.test?.noise).toBeCloseTo(Math.hypot(0.005 / 1.005, 0.005 / 1.065), 10);
    // t = 0.058 / 0.0068 = 8.5 on one degree of freedom (Welch's 1.99 rounded down) is not beyond 12.7.
    expect(seen.test?.freedom).toBe(1);
    expect(seen.test?.beyondNoise).toBe(false);
    expect(seen.test?.morePulls).toBe(1);
  });
  it("leaves the noise unknown for single pulls and does not call a small gain real", () => {
    expect(comparePulls([pull(1)], [pull(1.05)]).test).toBeNull();
    expect(comparePulls([pull(1), pull(1)], [pull(1.05), pull(1.05)]).test).toBeNull();
    expect(comparePulls([pull(1), pull(1.03)], [pull(1.01), pull(1.03)]).test?.beyondNoise).toBe(false);
  });
  it("reads power as torque, applies the factor, and refuses what it cannot compare", () => {
    const power = { rpm, powerW: rpm.map((n) => 40 * n * ((2 * Math.PI) / 60)), factor: 1.02 };
    expect(pullTorqueNm(power)[7]).toBeCloseTo(40.8, 10);
    expect(() => pullTorqueNm({ rpm })).toThrow(/power or torque/);
    expect(() => comparePulls([pull(1)], [{ rpm: [7100, 7300, 7500], torqueNm: [1, 2, 3] }])).toThrow(
      /share no engine speeds/,
    );
    expect(() => comparePulls([], [pull(1)])).toThrow(Refusal);
  });
});
