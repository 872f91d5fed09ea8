import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { airFromReading } from "@/lib/domain/air/weather";
import { Refusal } from "@/lib/domain/refusal";
import { densityJet } from "@/lib/domain/tuning/densityJet";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { Known, ModelCardFacts, TargetInput } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, mainJets, OPENED } from "./tuning-demo";

const known = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<Known<T> | undefined> =>
  fc.option(
    value.map((v): Known<T> => ({ value: v, how: "read" })),
    { nil: undefined },
  );
const number = (min: number, max: number) => known(fc.double({ min, max, noNaN: true }));
const card: fc.Arbitrary<ModelCardFacts> = fc.record({
  displacementCc: number(40, 1500),
  cylinders: known(fc.integer({ min: 1, max: 4 })),
  ratedRpm: number(3000, 14_000),
  carburettorType: known(fc.constantFrom("cv" as const, "mechanical" as const)),
  boreMm: number(14, 50),
  diaphragmMm: number(30, 110),
  slideMassG: number(5, 150),
  springRateNPerM: number(20, 800),
  springFreeMm: number(40, 200),
  springInstalledMm: number(20, 150),
  jetConvention: known(fc.constantFrom("bore" as const, "flow" as const)),
  ventedTo: known(fc.constantFrom("atmosphere" as const, "airbox" as const, "unknown" as const)),
  fuel: known(fc.constantFrom("E0" as const, "E10" as const, "E85" as const)),
  snorkelMm: number(15, 90),
  snorkelHoleMm: number(15, 100),
  headerMm: number(25, 60),
});
const air = fc
  .record({
    altitudeM: fc.double({ min: -300, max: 4000, noNaN: true }),
    temperatureC: fc.double({ min: -20, max: 45, noNaN: true }),
    humidity: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map((w) => airFromReading({ ...w, qnhPa: 101_325 }));
const changes: fc.Arbitrary<TargetInput["changes"]> = fc.subarray([
  { setting: "airboxOpeningMm", change: "set", value: 51 },
  { setting: "snorkelFitted", change: "set", value: 0 },
  { setting: "springLengthMm", change: "add", value: -12 },
  { setting: "headerWeldMm", change: "set", value: 1 },
  { setting: "mainJet", change: "computed" },
  { setting: "pilotJet", change: "computed" },
  { setting: "clipPosition", change: "computed" },
  { setting: "mixtureScrewTurns", change: "computed" },
] as const);

/** Every number inside a value, however deep. */
function numbersIn(value: unknown): readonly number[] {
  if (typeof value === "number") return [value];
  return value !== null && typeof value === "object" ? Object.values(value).flatMap(numbersIn) : [];
}

describe("whatever is known of a bike", () => {
  it("every number of sheet and curve is finite, or a Refusal says what to do", () => {
    let answered = 0;
    fc.assert(
      fc.property(
        card,
        air,
        air,
        changes,
        fc.integer({ min: 1, max: 4 }),
        fc.subarray(Object.keys(AS_FOUND)),
        (facts, now, baseline, list, count, keys) => {
          const settings = Object.fromEntries(Object.entries(AS_FOUND).filter(([key]) => keys.includes(key)));
          const carburettors = Array.from({ length: count }, (_, i) => ({ name: `${i + 1}`, settings }));
          try {
            const sheet = targetSettings({
              card: facts,
              carburettors,
              changes: list,
              now,
              baseline,
              jets: mainJets([130, 135, 140, 145, 150], 2),
            });
            const [first] = sheet.carburettors;
            const curve = first ? fuelCurve(first.after, now, 20) : null;
            expect([...numbersIn(sheet), ...numbersIn(curve)].every(Number.isFinite)).toBe(true);
            for (const p of curve?.points ?? [])
              expect(p.low > 0 && p.low <= p.lambda && p.lambda <= p.high).toBe(true);
            answered++;
          } catch (error) {
            if (!(error instanceof Refusal)) throw error;
            expect(error.remedy).not.toBe("");
          }
        },
      ),
      { numRuns: 400 },
    );
    expect(answered).toBeGreaterThan(300);
  });
  it("never computes a main or pilot jet leaner without a measurement than one step or the air allows", () => {
    fc.assert(
      fc.property(air, air, changes, (now, baseline, list) => {
        const sheet = targetSettings({ ...OPENED, card: DROVER, now, baseline, changes: list });
        for (const c of sheet.carburettors)
          for (const key of ["mainJet", "pilotJet"] as const) {
            const s = c.settings.find((x) => x.key === key);
            const from = s?.from ?? 0;
            const byDensity = densityJet(from, "bore", now, baseline).exact;
            expect(s?.value ?? 0).toBeGreaterThanOrEqual(Math.min(from - 2.5, byDensity) - 1e-9);
          }
      }),
      { numRuns: 150 },
    );
  });
  it("says when no jet meets the target instead of offering one", () => {
    const needle = {
      value: {
        straightMm: 2.5,
        straightLiftMm: 40,
        clipAt: 3,
        clipStepMm: 1,
        clips: 5,
        tapers: [{ lengthMm: 5, includedAngleDeg: 1 }],
      },
      how: "read" as const,
    };
    const thick = targetSettings({ ...OPENED, card: { ...DROVER, needle }, jets: [] });
    expect(thick.carburettors[0]?.mainJet).toBeNull();
    expect(thick.warnings.find((w) => w.rule === "jet out of reach")?.message).toContain("lean");
    expect(thick.carburettors[0]?.settings.find((s) => s.key === "mainJet")?.value).toBe(140);
  });
});
