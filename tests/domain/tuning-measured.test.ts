import fc from "fast-check";
import { Matrix, inverse as mlInverse } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import {
  type CalibrationPoint,
  calibrate,
  calibrateFromLog,
  calibrationPoint,
} from "@/lib/domain/tuning/calibrate";
import { comparePulls, pullTorqueNm } from "@/lib/domain/tuning/dyno";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { readLambdaLog } from "@/lib/domain/tuning/lambdaLog";
import { PRIOR_SIGMA, REGIONS, regionWeights, targetLambda } from "@/lib/domain/tuning/regions";
import { inverse } from "@/lib/domain/tuning/smallMatrix";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import { OPENED, PLAIN_AIR } from "./tuning-demo";

const state = () => {
  const [c] = targetSettings(OPENED).carburettors;
  if (!c) throw new Error("no carburettor");
  return c.after;
};
const wide = (throttle: number, lambda: number, steady = true) =>
  calibrationPoint(state(), PLAIN_AIR, throttle, { kind: "wideband", lambda, steady });
const sigmaOf = (points: readonly CalibrationPoint[]) => calibrate(points).map((c) => c.sigma);
const point = (liftShare: number, error: number): CalibrationPoint => ({
  kind: "wideband",
  weights: regionWeights(liftShare),
  error,
  sigma: 0.02,
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
  it("solves the ridge equations as ml-matrix does where nothing is an outlier", () => {
    const points = [0.02, 0.1, 0.2, 0.4, 0.6, 0.9, 1].map((x) => point(x, 0.01));
    const X = new Matrix(points.map((p) => REGIONS.map((r) => p.weights[r])));
    const A = X.transpose()
      .mmul(X)
      .mul(1 / 0.02 ** 2);
    REGIONS.forEach((r, i) => {
      A.set(i, i, A.get(i, i) + PRIOR_SIGMA[r] ** -2);
    });
    const y = Matrix.columnVector(points.map((p) => p.error / 0.02 ** 2));
    const b = mlInverse(A).mmul(X.transpose()).mmul(y).to1DArray();
    calibrate(points).forEach((c, i) => {
      expect(c.value).toBeCloseTo(b[i] ?? 9, 10);
      expect(c.sigma).toBeCloseTo(Math.sqrt(mlInverse(A).get(i, i)), 10);
    });
  });
  it("finds a lean main from full-load lambda and leaves the unsampled regions at their prior", () => {
    const now = fuelCurve(state(), PLAIN_AIR, 3).points[2]?.lambda ?? 0;
    const fitted = calibrate([1, 2, 3, 4, 5].map(() => wide(1, now * 1.05)));
    const main = fitted.find((c) => c.region === "main");
    expect(main?.value).toBeLessThan(-0.035);
    expect(main?.samples).toBe(5);
    const straight = fitted.find((c) => c.region === "straight");
    expect(straight).toEqual({ region: "straight", value: 0, sigma: 0.1, samples: 0 });
    const richer = targetSettings({ ...OPENED, calibration: fitted }).carburettors[0]?.mainJet?.exact ?? 0;
    expect(richer).toBeGreaterThan(targetSettings(OPENED).carburettors[0]?.mainJet?.exact ?? 999);
  });
  it("never widens the band with more agreeing data", () => {
    const lift = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.array(lift, { maxLength: 12 }), lift, (lifts, more) => {
        const points = lifts.map((x) => point(x, 0));
        const before = sigmaOf(points);
        sigmaOf([...points, point(more, 0)]).forEach((s, i) => {
          expect(s).toBeLessThanOrEqual((before[i] ?? 0) + 1e-12);
        });
      }),
    );
  });
  it("does not fit transients, gives little weight to an outlier, and hears what was felt on one side only", () => {
    expect(calibrate([wide(1, 1.2, false)]).every((c) => c.value === 0)).toBe(true);
    const value = (points: CalibrationPoint[]) =>
      calibrate(points).find((c) => c.region === "main")?.value ?? 9;
    const calm = Array.from({ length: 8 }, () => point(1, 0));
    expect(Math.abs(value([...calm, point(1, -0.4)]))).toBeLessThan(0.01);
    const felt = (kind: "felt lean" | "felt rich", error: number): CalibrationPoint => ({
      ...point(1, error),
      kind,
      sigma: 0.04,
    });
    expect(value([felt("felt lean", -0.04)])).toBeLessThan(-0.01);
    const lean = Array.from({ length: 8 }, () => point(1, -0.1));
    expect(value([...lean, felt("felt lean", -0.04)])).toBeCloseTo(value(lean), 6);
  });
  it("takes an accepted setup as one observation at the target", () => {
    const p = calibrationPoint(state(), PLAIN_AIR, 1, { kind: "accepted" });
    expect(p.sigma).toBe(0.05);
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
    const fitted = calibrateFromLog(state(), PLAIN_AIR, readLambdaLog(log));
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
    expect(seen.noise).toBeCloseTo(Math.hypot(0.005 / 1.005, 0.005 / 1.065), 10);
    expect(seen.beyondNoise).toBe(true);
  });
  it("leaves the noise unknown for single pulls and does not call a small gain real", () => {
    expect(comparePulls([pull(1)], [pull(1.05)]).beyondNoise).toBeNull();
    expect(comparePulls([pull(1), pull(1.03)], [pull(1.01), pull(1.03)]).beyondNoise).toBe(false);
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
