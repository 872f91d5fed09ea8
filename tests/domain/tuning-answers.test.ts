import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { targetLambda } from "@/lib/domain/tuning/regions";
import { type AskingBike, calibrateFromRides, keptAir, type TaughtRide } from "@/lib/domain/tuning/ridden";
import { heardFrom, RUN_ANSWERS, type RunAnswer } from "@/lib/domain/tuning/runAnswers";
import { AS_FOUND, DROVER } from "./tuning-demo";

const here = placeAir({ altitudeM: 410, temperatureC: 20, humidity: null });
const settings = Object.fromEntries(Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]));
const bike: AskingBike = { id: 7, card: DROVER, carburettors: 1, reference: { settings, air: here } };
const ride = (of: Pick<TaughtRide, "kind" | "at">): TaughtRide => ({
  ...of,
  settings,
  air: keptAir(here),
  bikeId: 7,
  current: true,
});
const answered = (answer: RunAnswer): TaughtRide[] => {
  const heard = heardFrom(answer);
  return heard ? [ride(heard)] : [];
};
const learned = (rides: readonly TaughtRide[]) => calibrateFromRides(bike, rides);
const value = (rides: readonly TaughtRide[], region: string) =>
  learned(rides).find((one) => one.region === region)?.value ?? Number.NaN;

describe("what an owner answers some weeks later", () => {
  it("has a direction only where it has one: hot is lean, much fuel is rich, a bad start is neither (common practice)", () => {
    expect(RUN_ANSWERS.filter((one) => heardFrom(one) === null)).toEqual([
      "startsBadly",
      "hesitates",
      "other",
    ]);
    expect(value(answered("tooHot"), "taper")).toBeLessThan(0);
    expect(value(answered("muchFuel"), "taper")).toBeGreaterThan(0);
    expect(value(answered("runsWell"), "taper")).toBeCloseTo(0, 9);
  });

  it("counts a little: one answer moves no region by 1 %, and a log that disagrees by 5 % outweighs it", () => {
    for (const answer of RUN_ANSWERS)
      for (const { value: moved } of learned(answered(answer))) expect(Math.abs(moved)).toBeLessThan(0.01);
    const at = [0.2, 0.3, 0.5, 0.6].map((throttle) => ({
      throttle,
      lambda: targetLambda(throttle) * Math.exp(-0.05),
      sigma: 0.015,
    }));
    expect(value([...answered("tooHot"), ride({ kind: "wideband", at })], "taper")).toBeGreaterThan(0.02);
  });

  it("measures no region, so it lifts no limit, and a bike that runs well keeps its pilot as it is", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...RUN_ANSWERS), { maxLength: 12 }), (answers) => {
        const all = learned(answers.flatMap(answered));
        expect(all.some((one) => one.measured)).toBe(false);
      }),
      { numRuns: 40 },
    );
    const many = Array.from({ length: 20 }, () => answered("runsWell")).flat();
    const pilot = (rides: readonly TaughtRide[]) => learned(rides).find((one) => one.region === "pilot");
    expect(pilot(many)).toEqual({ ...pilot([]), samples: pilot(many)?.samples });
  });
});
