import { describe, expect, it } from "vitest";
import { machineFrom } from "@/lib/domain/tuning/machine";
import { usualNeedle } from "@/lib/domain/tuning/standIns";
import type { ModelCardFacts, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER } from "./tuning-demo";

const known = <T>(value: T) => ({ value, how: "read" as const });
const settings: SettingValues = Object.fromEntries(
  Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]),
);
const exchanged = { freeMm: 118, coils: null, rateNPerM: null, exchanged: true };

describe("a model card's facts", () => {
  it("are refused outside their range, each in its own unit", () => {
    const facts: readonly (readonly [ModelCardFacts, string])[] = [
      [{ displacementCc: known(10) }, "Displacement is 10 cc, outside 30 to 3000 cc."],
      [{ cylinders: known(9) }, "Cylinders is 9, outside 1 to 8."],
      [{ ratedRpm: known(1000) }, "Rated speed is 1000 rpm, outside 2000 to 18000 rpm."],
      [{ needleJetMm: known(0.5) }, "Needle jet is 0.5 mm, outside 1 to 6 mm."],
      [{ snorkelMm: known(300) }, "Snorkel is 300 mm, outside 5 to 200 mm."],
      [{ snorkelHoleMm: known(300) }, "Hole without snorkel is 300 mm, outside 5 to 250 mm."],
      [{ headerMm: known(5) }, "Header pipe is 5 mm, outside 10 to 120 mm."],
      [{ diaphragmMm: known(10) }, "Diaphragm is 10 mm, outside 20 to 150 mm."],
      [{ slideMassG: known(600) }, "Slide mass is 600 g, outside 1 to 500 g."],
      [{ springRateNPerM: known(1) }, "Slide spring rate is 1 N/m, outside 5 to 5000 N/m."],
      [{ springInstalledMm: known(1) }, "Spring length, slide down is 1 mm, outside 5 to 300 mm."],
    ];
    for (const [wrong, said] of facts)
      expect(() => machineFrom({ ...DROVER, ...wrong }, 1, settings)).toThrow(said);
  });

  it("have a needle of usual proportions where none is known, for the clip on the sheet", () => {
    const { needle: _, ...bare } = DROVER;
    expect(machineFrom(bare, 1, { ...settings, clipPosition: 6 }).needle).toEqual(usualNeedle(2.6, 37, 6));
  });
});

describe("a slide spring that was described", () => {
  const rateNotes = (card: ModelCardFacts, springs: Parameters<typeof machineFrom>[4]) =>
    machineFrom(card, 1, settings, undefined, springs).assumptions.filter((a) =>
      a.fact.startsWith("Rate of the exchanged slide spring"),
    );

  it("is one spring where now and before are the same, and its unknown rate is told once", () => {
    const springs = { now: exchanged, reference: exchanged };
    expect(machineFrom(DROVER, 1, settings, undefined, { springs }).springNow).toBeUndefined();
    expect(rateNotes(DROVER, { springs })).toHaveLength(1);
    const other = { now: { ...exchanged, freeMm: 110 }, reference: exchanged };
    expect(machineFrom(DROVER, 1, settings, undefined, { springs: other }).springNow?.freeM).toBe(0.11);
  });

  it("is none of a mechanical slide's", () => {
    const card = { ...DROVER, carburettorType: known("mechanical" as const) };
    const springs = { now: exchanged };
    expect(machineFrom(card, 1, settings, undefined, { springs }).springNow).toBeUndefined();
    expect(rateNotes(card, { springs })).toEqual([]);
  });
});

describe("a spring that is shorter than delivered", () => {
  const notes = (own: SettingValues, card: ModelCardFacts = DROVER, reference?: typeof exchanged) =>
    machineFrom(card, 1, { ...settings, ...own }, undefined, { springs: { reference } }).assumptions.map(
      (a) => a.fact,
    );
  const { springCoils: _, ...uncounted } = DROVER;

  it("is taken as cut where nobody counted its coils, and told so", () => {
    const said = "Slide spring of 110 mm, 118 mm as delivered: taken as cut, nobody counted its coils";
    expect(notes({ springLengthMm: 110 })).toEqual([said]);
    expect(notes({ springLengthMm: 110 }, uncounted)).toEqual([said]);
  });

  it("is told nothing of where it was counted or described, or is no shorter", () => {
    expect(notes({ springLengthMm: 110, springCoils: 19.6 })).toEqual([]);
    expect(notes({ springLengthMm: 110 }, DROVER, { ...exchanged, exchanged: false, freeMm: 110 })).toEqual(
      [],
    );
    expect(notes({ springLengthMm: 118 }, uncounted)).toEqual([]);
    expect(notes({ springLengthMm: 120 }, uncounted)).toEqual([]);
  });
});
