import { describe, expect, it } from "vitest";
import { recommendReasons, WHY } from "@/app/_documents/recommendReasons";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { recommend } from "@/lib/domain/bench/recommend";
import { DROVER, mainJets, OPENED } from "../domain/tuning-demo";

const air = (altitudeM: number, temperatureC: number) =>
  placeAir({ altitudeM, temperatureC, humidity: null });
const ANSWER = recommend({
  card: DROVER,
  carburettors: OPENED.carburettors,
  changes: OPENED.changes,
  baseline: air(410, 20),
  airs: [
    { name: "the valley", air: air(410, 30) },
    { name: "the pass, 3000 m", air: air(3000, 5) },
  ],
  jets: mainJets(Array.from({ length: 41 }, (_, n) => 100 + 2.5 * n)),
});
const reasons = (of: string) => recommendReasons(ANSWER, of, "en-AU");
const [first] = ANSWER.sheet.carburettors;
const runnerUp = first?.mainJet?.runnerUp;
if (!first?.mainJet || !runnerUp) throw new Error("no main jet, or no other");

describe("what a recommended setting rests on", () => {
  it("is answered for every setting of every carburettor, as the rules have it", () => {
    expect(first.settings.length).toBeGreaterThan(3);
    for (const c of ANSWER.sheet.carburettors)
      for (const s of c.settings) {
        expect(s.because.length, s.key).toBeGreaterThan(0);
        expect(reasons(WHY.setting(c.name, s.key))).toEqual(s.because);
      }
  });

  it("is answered for the main jet with the size that would be exact and the next best", () => {
    const facts = (reasons(WHY.jet) ?? []).map((one) => one.fact);
    expect(facts.slice(0, first.mainJet?.because.length)).toEqual(
      first.mainJet?.because.map((one) => one.fact),
    );
    expect(facts).toContain(`Exactly ${first.mainJet?.exact.toFixed(1)} would meet the target`);
    expect(facts).toContain(`Next best: ${runnerUp.size}`);
  });

  it("is answered for the curve, the oxygen and each air of a range", () => {
    expect(reasons(WHY.curve)?.length).toBeGreaterThan(1);
    expect(reasons(WHY.oxygen)).toEqual(ANSWER.sheet.relativeDensity.toBaseline.because);
    for (const corner of ANSWER.corners) expect(reasons(WHY.corner(corner.name))).toEqual(corner.air.because);
  });

  it("is nothing for what the answer does not have", () => {
    for (const of of [
      "",
      "setting",
      WHY.setting(first.name, "noSuchSetting"),
      WHY.corner("nowhere"),
      "toString",
    ])
      expect(reasons(of)).toBeUndefined();
  });
});
