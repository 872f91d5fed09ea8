import { describe, expect, it } from "vitest";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { REGIONS } from "@/lib/domain/tuning/regions";
import { logSigma, resolve, stationAt } from "@/lib/domain/tuning/station";
import type { FuelState, SettingValues, VentedTo } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, PLAIN_AIR } from "./tuning-demo";

const known = <T>(value: T) => ({ value, how: "read" as const });
const settings: SettingValues = Object.fromEntries(
  Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]),
);
const opened = { ...settings, airboxOpeningMm: 47, pilotJet: 47.5 };

describe("a fuel curve where vents and a jet are unknown", () => {
  const state = (ventedTo: VentedTo, pilotJet: number, unsure: readonly "pilotJet"[] = []): FuelState => ({
    card: { ...DROVER, ventedTo: known(ventedTo) },
    carburettors: 1,
    settings: opened,
    reference: { settings: { ...settings, pilotJet }, air: PLAIN_AIR, unsure },
  });
  const POINTS = 6;
  const unknown = state("unknown", 45, ["pilotJet"]);
  const curve = fuelCurve(unknown, PLAIN_AIR, POINTS);
  const lambdas = (ventedTo: VentedTo, pilotJet: number) =>
    fuelCurve(state(ventedTo, pilotJet), PLAIN_AIR, POINTS).points.map((p) => p.lambda);

  it("shows the jet's case as the curve from that jet, in the geometric middle of the vents", () => {
    expect(curve.cases.map((one) => one.name)).toEqual(["pilot jet found 47.5 already"]);
    const [out, box] = [lambdas("atmosphere", 47.5), lambdas("airbox", 47.5)];
    expect(curve.cases[0]?.lambda).toHaveLength(POINTS);
    curve.cases[0]?.lambda.forEach((lambda, i) => {
      expect(lambda).toBeCloseTo(Math.sqrt((out[i] ?? 0) * (box[i] ?? 0)), 9);
    });
  });

  it("tells the case among its assumptions, with what would settle it", () => {
    expect(curve.assumptions.at(-1)).toEqual({
      fact: "Not known, may be: pilot jet found 47.5 already",
      from: "nobody looked",
      effect: curve.cases[0]?.settle,
    });
    expect(curve.firmness).toBe("starting point");
  });

  it("lies midway between the leanest and the richest case, with half their distance in its band", () => {
    const r = resolve(unknown, PLAIN_AIR);
    const [out, box] = [lambdas("atmosphere", 45), lambdas("airbox", 45)];
    curve.points.forEach((p, i) => {
      const logs = [out[i], box[i], curve.cases[0]?.lambda[i]].map((lambda) =>
        Math.log(p.target / (lambda ?? Number.NaN)),
      );
      const [most, least] = [Math.max(...logs), Math.min(...logs)];
      const middle = (most + least) / 2;
      expect(Math.log(p.target / p.lambda)).toBeCloseTo(middle, 9);
      const sigma = Math.hypot(
        logSigma(r, stationAt(r, "atmosphere", p.throttle), middle),
        (most - least) / 2,
      );
      expect(Math.log(p.high / p.lambda) / 1.5).toBeCloseTo(sigma, 9);
    });
  });
});

describe("a fuel curve's words", () => {
  const plain: FuelState = {
    card: DROVER,
    carburettors: 1,
    settings,
    reference: { settings, air: PLAIN_AIR },
  };

  it("say what it is relative to, and what of it is practice", () => {
    expect(fuelCurve(plain, PLAIN_AIR, 2).because.slice(1)).toEqual([
      {
        fact: "Reference settings met the lambda target",
        from: "accepted setup",
        effect: "the curve is relative to them",
      },
      { fact: "Lambda target and region weights", from: "common practice, judgement" },
    ]);
  });

  it("and its band do not count what was learned as a change of the model", () => {
    const taught = (value: number) =>
      fuelCurve(
        { ...plain, calibration: REGIONS.map((region) => ({ region, value, sigma: 0.02, samples: 1 })) },
        PLAIN_AIR,
        5,
      ).points.map((p) => p.high / p.low);
    taught(0.1).forEach((width, i) => {
      expect(width).toBeCloseTo(taught(0)[i] ?? 0, 9);
    });
  });
});
