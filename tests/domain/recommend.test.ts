import { describe, expect, it } from "vitest";
import { airFromReading } from "@/lib/domain/air/weather";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { recommend } from "@/lib/domain/bench/recommend";
import type { NamedAir, RecommendInput } from "@/lib/domain/bench/recommendTypes";
import { shimAdvice } from "@/lib/domain/bench/shimAdvice";
import { VERIFY } from "@/lib/domain/reason";
import { OutOfRange, Refusal } from "@/lib/domain/refusal";
import type { SizeInDrawer } from "@/lib/domain/sheets/howToMake";
import { calibrate } from "@/lib/domain/tuning/calibrate";
import { calibrationPoint } from "@/lib/domain/tuning/calibrationPoint";
import { densityJet } from "@/lib/domain/tuning/densityJet";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { readLambdaLog } from "@/lib/domain/tuning/lambdaLog";
import { logObservations, withMeasured } from "@/lib/domain/tuning/logObservations";
import { narrowings } from "@/lib/domain/tuning/narrowing";
import { REGIONS, regionWeights, targetLambda } from "@/lib/domain/tuning/regions";
import { ACCEPTED_AT, type AskingBike, calibrateFromRides, keptAir } from "@/lib/domain/tuning/ridden";
import { corrections } from "@/lib/domain/tuning/symptoms";
import { wear } from "@/lib/domain/tuning/wear";
import { seeded } from "../support/seeded";
import { AS_FOUND, DROVER, mainJets, OPENED } from "./tuning-demo";

const here = placeAir({ altitudeM: 410, temperatureC: 20, humidity: null });
const SIZES = Array.from({ length: 41 }, (_, i) => 100 + 2.5 * i);
const at = (altitudeM: number, temperatureC: number): NamedAir => ({
  name: `${altitudeM} m, ${temperatureC} °C`,
  air: placeAir({ altitudeM, temperatureC, humidity: null }),
});
const asked = (airs: readonly NamedAir[], change: Partial<RecommendInput> = {}): RecommendInput => ({
  card: DROVER,
  carburettors: OPENED.carburettors,
  changes: OPENED.changes,
  baseline: here,
  airs,
  jets: mainJets(SIZES),
  ...change,
});
const NEEDLE = DROVER.needle?.value;
if (!NEEDLE) throw new Error("no needle");
const main = (answer: ReturnType<typeof recommend>) => {
  const jet = answer.sheet.carburettors[0]?.mainJet;
  if (!jet) throw new Error("no main jet");
  return jet;
};
const ALTITUDES = [0, 410, 1500, 3000];
const TEMPERATURES = [5, 40];

describe("a recommendation for a needle without grooves", () => {
  const plain = { ...DROVER, needle: { how: "read", value: { ...NEEDLE, clips: 0, clipAt: 0 } } } as const;
  const carburettor = (name: string) => {
    const { clipPosition: _, ...found } = AS_FOUND;
    return { name, settings: { ...found, needleShimBelowMm: { value: 1, how: "measured" } } } as const;
  };
  const inAir = (drawer: readonly SizeInDrawer[], names = ["carburettor"]) => {
    const changes = [{ setting: "clipPosition", change: "computed" } as const];
    const one = { card: plain, carburettors: names.map(carburettor), changes, shims: drawer };
    const [c] = recommend(asked([at(3000, 40)], one)).sheet.carburettors;
    if (!c) throw new Error("no carburettor");
    const to = c.settings.find((s) => s.key === "needleShimBelowMm")?.value ?? Number.NaN;
    return { to, said: shimAdvice(c, drawer, names.length).join(" ") };
  };
  const shims = (...sizes: readonly (readonly [mm: number, free: number])[]): SizeInDrawer[] =>
    sizes.map(([sizeMm, free]) => ({ sizeMm, free, bin: "C4" }));
  it("moves it in the steps of the shims that are free, and names them", () => {
    const { to, said } = inAir(shims([0.3, 4]));
    expect(to).not.toBe(1);
    expect(Math.abs((to - 1) / 0.3) % 1).toBeCloseTo(0, 6);
    expect(said).toContain("Free in the drawer: 4 of 0.3 mm (bin C4).");
  });
  it("says so where none is free, and works in the usual steps", () => {
    const { to, said } = inAir(shims([0.3, 0]));
    expect(((to - 1) / 0.25) % 1).toBeCloseTo(0, 6);
    expect(said).toContain("No needle shim is free in the drawer");
    expect(inAir([]).said).toContain("No needle shim is free in the drawer");
  });
  it("has enough of them for every carburettor, or does without", () => {
    expect(((inAir(shims([0.3, 1]), ["left", "right"]).to - 1) / 0.25) % 1).toBeCloseTo(0, 6);
    expect(Math.abs((inAir(shims([0.3, 8]), ["left", "right"]).to - 1) / 0.3) % 1).toBeCloseTo(0, 6);
  });
});

describe("a recommendation for the demo bike", () => {
  it("wants a smaller main jet with altitude and with heat, at 0, 410, 1500, 3000 m and 5 and 40 °C", () => {
    for (const t of TEMPERATURES) {
      const exact = ALTITUDES.map((m) => main(recommend(asked([at(m, t)]))).exact);
      for (const [i, size] of exact.entries()) if (i > 0) expect(size).toBeLessThan(exact[i - 1] ?? 0);
    }
    for (const m of ALTITUDES)
      expect(main(recommend(asked([at(m, 40)]))).exact).toBeLessThan(
        main(recommend(asked([at(m, 5)]))).exact,
      );
  });
  it("is complete and explained to the last factor in each of these airs", () => {
    for (const m of ALTITUDES)
      for (const t of TEMPERATURES) {
        const answer = recommend(asked([at(m, t)]));
        const [c] = answer.sheet.carburettors;
        expect(c?.settings.map((s) => s.key)).toEqual(
          expect.arrayContaining([
            "mainJet",
            "clipPosition",
            "mixtureScrewTurns",
            "airboxOpeningMm",
            "idleSpeedRpm",
          ]),
        );
        for (const s of c?.settings ?? []) {
          expect(s.because.length).toBeGreaterThan(0);
          for (const r of s.because) expect(r.from).not.toBe("");
        }
        expect(c?.settings.find((s) => s.key === "mainJet")?.because.some((r) => r.fact === VERIFY)).toBe(
          true,
        );
        const jet = main(answer);
        expect(jet.runnerUp).not.toBeNull();
        expect(jet.firmness).toBe("starting point");
        expect(jet.chosen.leanRisk).toBeGreaterThanOrEqual(0);
        expect(answer.corners[0]?.air.because.length).toBeGreaterThan(0);
        if (c) {
          const after = fuelCurve(c.after, answer.worst.air, 12);
          for (const p of after.points) expect(p.low).toBeLessThan(p.high);
          expect(after.because.length).toBeGreaterThan(0);
        }
      }
  });
  it("goes no leaner without a measurement than air density alone asks, in one air or over a range, and says what to measure", () => {
    const keep: Partial<RecommendInput> = {
      changes: [{ setting: "mainJet", change: "computed" }],
    };
    for (const airs of [[at(3000, 40)], [at(2800, 30), at(3000, 40)]]) {
      const answer = recommend(asked(airs, keep));
      const byDensity = Math.max(...airs.map((a) => densityJet(140, "bore", a.air, here).size));
      expect(main(answer).chosen.size).toBe(byDensity);
      expect(answer.sheet.refusals[0]).toMatchObject({ setting: "mainJet", allowed: byDensity });
      expect(answer.sheet.refusals[0]?.remedy).toMatch(/measure lambda/);
      const measured = REGIONS.map((region) => ({
        region,
        value: 0,
        sigma: 0.02,
        samples: 4,
        measured: true,
      }));
      const free = recommend(asked(airs, { ...keep, calibration: measured }));
      expect(main(free).chosen.size).toBeLessThan(byDensity);
      expect(free.sheet.refusals).toEqual([]);
    }
  });
  it("gives one setting for a range, least bad at its worst corner, the same whichever corner comes first", () => {
    const airs = ALTITUDES.slice(0, 3).flatMap((m) => TEMPERATURES.map((t) => at(m, t)));
    const answer = recommend(asked(airs));
    const back = recommend(asked([...airs].reverse()));
    expect(main(back).chosen.size).toBe(main(answer).chosen.size);
    expect(answer.worst.name).toBe(back.worst.name);
    expect(answer.corners).toHaveLength(6);
    const each = airs.map((a) => main(recommend(asked([a]))).chosen.size);
    expect(main(answer).chosen.size).toBeGreaterThanOrEqual(Math.min(...each));
    expect(main(answer).chosen.size).toBeLessThanOrEqual(Math.max(...each));
    const screws = airs.map((a) => recommend(asked([a])).sheet.carburettors[0]?.screwStart?.value ?? 0);
    const screw = answer.sheet.carburettors[0]?.settings.find((s) => s.key === "mixtureScrewTurns");
    expect(screw?.value).toBe(Math.max(...screws));
    expect(screw?.because.at(-1)?.fact).toMatch(/richest/);
  });
  it("says what to do when the jet is not in the drawer", () => {
    const jets = [...mainJets([140], 3), ...mainJets([145, 147.5], 0)];
    const jet = main(recommend(asked([at(0, 5)], { jets })));
    expect(jet.inDrawer).toBe(false);
    expect(jet.nearestInDrawer?.size).toBe(140);
    expect(jet.note).toMatch(/Not in the drawer: order 14\d.* Nearest in the drawer: 140/);
  });
  it("refuses a range for carburettors found unlike, no air, and a needle thicker than its jet", () => {
    const two = [
      { name: "left", settings: AS_FOUND },
      { name: "right", settings: { ...AS_FOUND, mainJet: { value: 142.5, how: "read" as const } } },
    ];
    expect(() => recommend(asked([at(0, 5), at(500, 5)], { carburettors: two }))).toThrow(/unlike/);
    expect(() => recommend(asked([]))).toThrow(Refusal);
    const card = { ...DROVER, needleJetMm: { value: 2.4, how: "read" as const } };
    expect(() => recommend(asked([at(0, 5)], { card }))).toThrow(Refusal);
    const ninth = { ...AS_FOUND, mainJet: { value: 900, how: "read" as const } };
    expect(() => recommend(asked([at(0, 5)], { carburettors: [{ name: "c", settings: ninth }] }))).toThrow(
      OutOfRange,
    );
    expect(() => airFromReading({ stationPa: 101_325, temperatureC: 20, humidity: 1.4 })).toThrow(OutOfRange);
  });
});

const settings = Object.fromEntries(Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]));
const bike: AskingBike = {
  id: 7,
  card: DROVER,
  carburettors: 1,
  reference: { settings, air: here },
};

describe("what rides teach", () => {
  it("finds a known bias of each region inside its own 95 % interval after five logs of 2 % noise, at least 90 times in 100", () => {
    const bias = { pilot: 0.05, straight: -0.04, taper: 0.05, main: -0.05 } as const;
    const openings = Array.from({ length: 24 }, (_, i) => 0.02 + (0.98 * i) / 23);
    const points = openings.map((u) => ({
      u,
      point: calibrationPoint({ ...bike, settings }, here, u, { kind: "accepted" }),
    }));
    const inside = new Map(REGIONS.map((r) => [r, 0]));
    for (let seed = 1; seed <= 100; seed++) {
      const random = seeded(seed);
      const log = () =>
        points.map(({ u, point }) => {
          const rich = REGIONS.reduce((sum, r) => sum + point.weights[r] * bias[r], 0);
          return {
            throttle: u,
            lambda: targetLambda(u) * Math.exp(-rich + point.error + 0.02 * random()),
            sigma: 0.02,
          };
        });
      const found = calibrateFromRides(
        bike,
        [1, 2, 3, 4, 5].map(() => ({
          kind: "wideband",
          settings,
          air: keptAir(here),
          at: log(),
          bikeId: 7,
          current: true,
        })),
      );
      for (const c of found) {
        expect(c.samples).toBeGreaterThan(0);
        if (Math.abs(c.value - bias[c.region]) <= 1.96 * c.sigma)
          inside.set(c.region, (inside.get(c.region) ?? 0) + 1);
      }
    }
    for (const [region, count] of inside) expect(count, region).toBeGreaterThanOrEqual(90);
  });
  it("leaves an accepted setting as it is, narrows every region it speaks of, leaves the pilot alone, and counts no sample", () => {
    const found = calibrateFromRides(bike, [
      { kind: "accepted", settings, air: keptAir(here), at: ACCEPTED_AT, bikeId: 7, current: true },
    ]);
    const before = calibrate([]);
    found.forEach((c, i) => {
      expect(Math.abs(c.value)).toBeLessThan(1e-9);
      if (c.region === "pilot") expect(c.sigma).toBeCloseTo(before[i]?.sigma ?? 0, 12);
      else expect(c.sigma).toBeLessThan(before[i]?.sigma ?? 0);
      expect(c.samples).toBe(0);
    });
  });
  it("does not let an accepted setting stand as a measurement for going leaner", () => {
    const calibration = calibrateFromRides(bike, [
      { kind: "accepted", settings, air: keptAir(here), at: ACCEPTED_AT, bikeId: 7, current: true },
    ]);
    const answer = recommend(
      asked([at(3000, 40)], { changes: [{ setting: "mainJet", change: "computed" }], calibration }),
    );
    expect(answer.sheet.refusals).toHaveLength(1);
  });
});

describe("a lambda log of a test ride", () => {
  const held = (throttle: number, lambda: number, from: number, rpm = 6000) =>
    Array.from({ length: 40 }, (_, i) => ({ t: from + i / 10, throttle, lambda, rpm }));
  const binsOf = (rows: ReturnType<typeof held>) =>
    readLambdaLog({
      timeS: rows.map((r) => r.t),
      throttle: rows.map((r) => r.throttle),
      lambda: rows.map((r) => r.lambda),
      rpm: rows.map((r) => r.rpm),
    }).bins;
  const observed = (rows: ReturnType<typeof held>) => logObservations(binsOf(rows));
  const sheet = { settings, accepted: settings, carburettorType: "cv" as const };
  it("becomes observations at the positions it held, with the figures in words", () => {
    const seen = observed([
      ...held(0.25, targetLambda(0.25), 0),
      ...held(0.98, targetLambda(0.98) * 1.06, 4),
    ]);
    expect(seen.map((o) => [o.throttle, o.sign])).toEqual([
      ["quarter", "good"],
      ["full", "lean"],
    ]);
    expect(seen[1]?.note).toMatch(/lambda 0\.93\d ± .* aimed at 0\.88: 6\.0 % lean/);
  });
  it("ranks the setting of the region that is off first", () => {
    const first = (throttle: number, factor: number) =>
      corrections(observed(held(throttle, targetLambda(throttle) * factor, 0)), sheet).corrections[0];
    expect(first(0.98, 1.06)).toMatchObject({ setting: "mainJet", to: 142.5 });
    expect(first(0.5, 0.92)).toMatchObject({ setting: "clipPosition", to: 2 });
    expect(first(0.02, 1.08)).toMatchObject({ setting: "mixtureScrewTurns", to: 2 });
  });
  it("is itself the measurement for one leaner main where it read rich at full load, and only there", () => {
    const needs = (rows: ReturnType<typeof held>, read: boolean) => {
      const all = corrections(observed(rows), sheet).corrections;
      const told = read ? withMeasured(all, observed(rows), binsOf(rows), 6500) : all;
      return told.find((c) => c.setting === "mainJet")?.needsMeasurement;
    };
    const rich = (throttle: number, rpm?: number) => held(throttle, targetLambda(throttle) * 0.92, 0, rpm);
    expect(needs(rich(0.98), false)).toMatch(/full load/);
    expect(needs(rich(0.98), true)).toBeUndefined();
    // Three quarters of throttle, full throttle far below the rated speed, and half throttle are no full load.
    for (const rows of [rich(0.78), rich(0.98, 3000), rich(0.5)])
      expect(needs(rows, true)).toMatch(/full load/);
  });
});

describe("what to measure first", () => {
  it("is the fact or region that narrows the range most, never one that is measured already", () => {
    const [c] = recommend(
      asked([at(1500, 20)], { card: { ...DROVER, needleJetMm: undefined, ventedTo: undefined } }),
    ).sheet.carburettors;
    if (!c) throw new Error("no carburettor");
    const all = narrowings(c.after, at(1500, 20).air);
    for (const [i, n] of all.entries()) {
      expect(n.then).toBeLessThan(n.now);
      if (i > 0) expect(n.then).toBeGreaterThanOrEqual(all[i - 1]?.then ?? 0);
    }
    const facts = all.flatMap((n) => ("fact" in n.what ? [n.what.fact] : []));
    expect(facts).toEqual(expect.arrayContaining(["needleJetMm", "ventedTo"]));
    expect(facts).not.toContain("boreMm");
  });
  it("reads wear towards its limit from either side", () => {
    expect(wear("Needle jet bore", "mm", 2.65, 2.66, true).state).toBe("worn");
    expect(wear("Slide spring free length", "mm", 110, 112, false).state).toBe("within");
    expect(wear("Slide spring free length", "mm", 110, null, false).state).toBe("unknown");
  });
  it("weights add up over every lift (identity)", () => {
    for (let i = 0; i <= 20; i++)
      expect(REGIONS.reduce((sum, r) => sum + regionWeights(i / 20)[r], 0)).toBeCloseTo(1, 12);
  });
});
