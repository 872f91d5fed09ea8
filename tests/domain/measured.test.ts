import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { untaken } from "@/lib/domain/packages/taking";
import { asksCarburettor, readValues } from "@/lib/domain/sheets/afterJob";
import { type CardReading, handedReadings } from "@/lib/domain/sheets/handedOver";
import { trendsOf } from "@/lib/domain/sheets/trend";
import { readingIn } from "@/lib/domain/sheets/typedReading";
import { MEASURABLES, measurable, measuredName } from "@/lib/domain/tuning/measurables";
import { SETTINGS } from "@/lib/domain/tuning/settings";
import { measuredWear } from "@/lib/domain/tuning/wear";
import { heldAgainst, LIMIT_FACTS, wearLimit } from "@/lib/domain/tuning/wearLimits";
import { sameUnit } from "@/lib/domain/units/unitNamed";
import { holdRows } from "@/lib/schemas/recipeRows";
import { BREATHING } from "../support/breathing";

const fact = (key: string, value: number) => ({ key, value, text: null, how: "measured" });
const NEEDLE = [
  fact("needleStraightMm", 2.46),
  fact("needleStraightLiftMm", 6),
  fact("needleStraightLengthMm", 20),
  fact("needleTaper1LengthMm", 38),
  fact("needleTaper1Deg", 1.85),
  fact("needleWearMm", 0.03),
];

describe("what a hold point may measure", () => {
  it("is every setting and every part that is gauged, each once", () => {
    const keys = MEASURABLES.map((one) => one.key);
    expect(new Set(keys).size).toBe(keys.length);
    for (const { key } of SETTINGS) expect(measurable(key)?.kind).toBe("setting");
    expect(measurable("needleJetBoreMm")).toMatchObject({ kind: "wear", unit: "mm", of: "carburettor" });
    expect(measurable("spoons")).toBeUndefined();
    expect(measuredName("needleMm", 30)).toBe("Needle diameter, 30 mm below the shoulder");
    expect(measuredName("needleMm", null)).toBe("Needle diameter, straight part");
  });

  it("is of a carburettor, of the engine or of the one airbox, and only a needle is read along its length", () => {
    const of = (kind: string) => MEASURABLES.filter((one) => one.of === kind).map((one) => one.key);
    expect(of("engine")).toEqual(["idleSpeedRpm", "vacuumSpreadKpa"]);
    expect(of("all carburettors")).toEqual(["airboxOpeningMm", "snorkelFitted"]);
    expect(of("carburettor")).toHaveLength(MEASURABLES.length - 4);
    expect(MEASURABLES.filter((one) => one.atStation).map((one) => one.key)).toEqual(["needleMm"]);
    expect(measuredName("needleJetBoreMm", 5)).toBe("Needle jet bore");
    expect(measuredName("spoons", 5)).toBe("spoons");
  });

  // Ranges are judgement: no part of a road or trail motorcycle is read outside them.
  it("has a range, a step and decimals that show it, of each part that wears", () => {
    const worn = MEASURABLES.filter((one) => one.kind === "wear");
    expect(worn.map((o) => [o.key, o.unit, o.low, o.high, o.step, o.decimals])).toEqual([
      ["needleMm", "mm", 0.2, 6, 0.005, 3],
      ["needleJetBoreMm", "mm", 1, 6, 0.005, 3],
      ["needleJetOvalityMm", "mm", 0, 1, 0.005, 3],
      ["guidePlayMm", "mm", 0, 3, 0.05, 2],
      ["diaphragmLights", "", 0, 50, 1, 0],
    ]);
    for (const one of worn) expect(Number(one.step.toFixed(one.decimals))).toBe(one.step);
  });

  it("is refused in a package where nobody can measure it, or in another unit than it is kept in", () => {
    const held = (measures: string, unit: string) => ({
      ...BREATHING,
      operations: BREATHING.operations.map((o) =>
        o.key === "fit-main"
          ? { ...o, holdPoints: [{ kind: "reading" as const, name: "Read", unit, low: 1, measures }] }
          : o,
      ),
    });
    const said = (measures: string, unit: string) =>
      untaken(held(measures, unit)).flatMap((one) =>
        one.names.includes("fit-main") && one.part === "operations" ? [one.message] : [],
      );
    expect(said("spoons", "mm")[0]).toContain("nothing that is measured");
    expect(said("floatHeightMm", "in")[0]).toContain("float height is kept in mm");
    expect(said("diaphragmLights", "mm")[0]).toContain("plain number");
    expect(said("floatHeightMm", "mm")).toEqual([]);
    expect(said("idleSpeedRpm", "o/min")).toEqual([]);
    expect(sameUnit("", "mm")).toBe(false);
  });

  it("may be read without limits of the package's own, and a needle at a distance along it", () => {
    const row = { kind: "reading", name: "Bore", unit: "mm", measures: "needleJetBoreMm" };
    expect(holdRows.parse({ "0": row })).toEqual([
      { kind: "reading", name: "Bore", unit: "mm", measures: "needleJetBoreMm" },
    ]);
    expect(holdRows.safeParse({ "0": { ...row, measures: "" } }).success).toBe(false);
    expect(holdRows.safeParse({ "0": { ...row, measures: "spoons" } }).success).toBe(false);
    expect(holdRows.safeParse({ "0": { ...row, station: "5" } }).success).toBe(false);
    expect(holdRows.parse({ "0": { ...row, measures: "needleMm", station: "5,5" } })).toMatchObject([
      { station: 5.5 },
    ]);
  });
});

describe("the limit of something that wears", () => {
  it("is the model card's: a bore by its widest, a needle by its delivered diameter at the station", () => {
    expect(wearLimit("needleJetBoreMm", null, [fact("needleJetWearMm", 2.61)])).toEqual({
      high: 2.61,
      from: "model card",
    });
    expect(wearLimit("needleMm", null, NEEDLE)?.low).toBeCloseTo(2.43, 9);
    expect(wearLimit("needleMm", 20, NEEDLE)?.low).toBeCloseTo(2.43, 9);
    // By hand: d = 2.46 - 2 x 10 mm x tan(1.85 deg / 2) = 2.46 - 20 x 0.0161458 = 2.137084; less 0.03 of wear.
    expect(wearLimit("needleMm", 30, NEEDLE)?.low).toBeCloseTo(2.1071, 4);
    expect(wearLimit("springLengthMm", null, [fact("springFreeMinMm", 104)])).toMatchObject({ low: 104 });
    // A diaphragm that lets light through is renewed: common practice, no source.
    expect(wearLimit("diaphragmLights", null, [])).toEqual({ high: 0, from: "common practice" });
  });

  it("is what its own fact says, for each part that has one", () => {
    const limit = (measures: string, key: string) => wearLimit(measures, null, [fact(key, 0.4)]);
    expect(limit("needleJetOvalityMm", "needleJetOvalMm")).toEqual({ high: 0.4, from: "model card" });
    expect(limit("guidePlayMm", "guidePlayMaxMm")).toEqual({ high: 0.4, from: "model card" });
    expect(limit("springLengthMm", "springFreeMinMm")).toEqual({ low: 0.4, from: "model card" });
    for (const measures of ["needleJetOvalityMm", "guidePlayMm", "springLengthMm", "needleJetBoreMm"])
      expect(limit(measures, "needleWearMm")).toBeNull();
    const asked: readonly string[] = LIMIT_FACTS;
    for (const { key } of NEEDLE) expect(asked).toContain(key);
    expect(asked).toEqual(
      expect.arrayContaining(["needleTaper3LengthMm", "needleTaper3Deg", "springFreeMinMm"]),
    );
    expect(asked).not.toContain("needleTaper4Deg");
    expect(new Set(asked).size).toBe(asked.length);
  });

  it("of a needle goes along its straight part and its tapers, to their end", () => {
    expect(wearLimit("needleMm", 20.5, NEEDLE)?.low).toBeCloseTo(
      2.43 - 2 * 0.5 * Math.tan((1.85 * Math.PI) / 360),
      4,
    );
    expect(wearLimit("needleMm", 58, NEEDLE)?.low).toBeCloseTo(
      2.43 - 2 * 38 * Math.tan((1.85 * Math.PI) / 360),
      4,
    );
    const without = (key: string) => NEEDLE.filter((one) => one.key !== key);
    expect(wearLimit("needleMm", 10, without("needleStraightLengthMm"))).toBeNull();
    expect(wearLimit("needleMm", null, without("needleStraightLengthMm"))?.low).toBeCloseTo(2.43, 9);
    expect(wearLimit("needleMm", 30, without("needleStraightMm"))).toBeNull();
    expect(wearLimit("needleMm", null, without("needleStraightMm"))).toBeNull();
  });

  it("is none where the card does not say, beyond the known taper too", () => {
    expect(wearLimit("needleJetBoreMm", null, NEEDLE)).toBeNull();
    expect(wearLimit("needleMm", 59, NEEDLE)).toBeNull();
    expect(wearLimit("needleMm", null, NEEDLE.slice(0, 5))).toBeNull();
    expect(wearLimit("mainJet", null, NEEDLE)).toBeNull();
  });

  it("joins the package's: whoever is stricter counts, and a reading inside both is inside the join", () => {
    expect(heldAgainst({ low: 2.5, high: 2.7 }, { high: 2.61, from: "model card" })).toEqual({
      low: 2.5,
      high: 2.61,
      from: "model card",
    });
    expect(heldAgainst({ low: null, high: 2.6 }, { high: 2.61, from: "model card" }).from).toBe("");
    expect(heldAgainst({ low: 1, high: 3 }, { low: 1, high: 3, from: "model card" })).toEqual({
      low: 1,
      high: 3,
      from: "",
    });
    expect(heldAgainst({ low: 1, high: 3 }, { low: 1.5, from: "model card" })).toEqual({
      low: 1.5,
      high: 3,
      from: "model card",
    });
    expect(heldAgainst({ low: null, high: null }, { low: 0, from: "model card" })).toMatchObject({ low: 0 });
    expect(heldAgainst({ low: 1, high: null }, null)).toEqual({ low: 1, high: null, from: "" });
    const end = fc.option(fc.double({ min: 0, max: 10, noNaN: true }), { nil: null });
    fc.assert(
      fc.property(end, end, end, end, fc.double({ min: 0, max: 10, noNaN: true }), (a, b, c, d, value) => {
        const card = { ...(c === null ? {} : { low: c }), ...(d === null ? {} : { high: d }), from: "card" };
        const inside = (low: number | null, high: number | null) =>
          (low === null || value >= low) && (high === null || value <= high);
        const joined = heldAgainst({ low: a, high: b }, card);
        expect(inside(joined.low, joined.high)).toBe(inside(a, b) && inside(c, d));
      }),
    );
  });

  it("is passed by a reading at it, and not by one beyond it", () => {
    const limit = { high: 2.61, from: "model card" };
    expect(measuredWear("Bore", "mm", limit, 2.61).state).toBe("within");
    expect(measuredWear("Bore", "mm", limit, 2.615).state).toBe("worn");
    const least = { low: 104, from: "model card" };
    expect(measuredWear("Spring", "mm", least, 104)).toEqual({
      what: "Spring",
      unit: "mm",
      limit: 104,
      measured: 104,
      state: "within",
    });
    expect(measuredWear("Spring", "mm", least, 103.9).state).toBe("worn");
    expect(measuredWear("Spring", "mm", least, 120).state).toBe("within");
    expect(measuredWear("Bore", "mm", limit, 1)).toMatchObject({ limit: 2.61, state: "within" });
    expect(measuredWear("Nothing", "", { from: "" }, 5)).toMatchObject({ limit: 0, state: "within" });
    const both = { low: 1, high: 2, from: "model card" };
    expect([0.9, 1, 2, 2.1].map((mm) => measuredWear("Bore", "mm", both, mm).state)).toEqual([
      "worn",
      "within",
      "within",
      "worn",
    ]);
    expect(readingIn({ name: "Bore", unit: "mm", low: null, measures: "needleJetBoreMm" }, 26, "mm")).toEqual(
      {
        problem: "Needle jet bore is from 1 to 6 mm: read it again.",
      },
    );
  });
});

describe("readings of a card", () => {
  const read = (setting: string, carburettor: number | null, value = 13) => ({
    position: 2,
    setting,
    carburettor,
    value,
  });
  it("ask for the carburettor on a twin, but not of what the engine or the airbox has one of", () => {
    const hold = (measures: string) => ({ measures, carburettor: null });
    expect(asksCarburettor(hold("floatHeightMm"), 2)).toBe(true);
    expect(asksCarburettor(hold("needleJetBoreMm"), 2)).toBe(true);
    expect(asksCarburettor(hold("floatHeightMm"), 1)).toBe(false);
    expect(asksCarburettor({ measures: "floatHeightMm", carburettor: 2 }, 2)).toBe(false);
    expect(asksCarburettor(hold("idleSpeedRpm"), 2)).toBe(false);
    expect(asksCarburettor(hold("airboxOpeningMm"), 2)).toBe(false);
    expect(asksCarburettor(hold(""), 2)).toBe(false);
  });
  it("of the one airbox stand with each carburettor; of a part that wears on no sheet", () => {
    const { left } = readValues([], [read("airboxOpeningMm", null, 48), read("guidePlayMm", 1, 0.2)], 2);
    expect(left.map((one) => [one.carburettor, one.setting, one.value])).toEqual([
      [1, "airboxOpeningMm", 48],
      [2, "airboxOpeningMm", 48],
    ]);
  });
});

describe("readings that go home", () => {
  const one = (more: Partial<CardReading>): CardReading => ({
    name: "Float height",
    unit: "mm",
    measures: "floatHeightMm",
    station: null,
    carburettor: 1,
    value: 13,
    low: 12,
    high: 14,
    overrideReason: "",
    ...more,
  });
  const left = [{ carburettor: 1, setting: "floatHeightMm" }];
  it("leave out what stands on the as-left sheet, but not why it was let pass", () => {
    expect(handedReadings([one({})], left)).toEqual({ readings: [], letPass: [] });
    const passed = one({ overrideReason: "old float" });
    expect(handedReadings([passed], left)).toEqual({ readings: [], letPass: [passed] });
    expect(handedReadings([one({ carburettor: 2 })], left).readings).toHaveLength(1);
  });
  it("say one number of a part that was read again, with what was found first", () => {
    const bore = one({ name: "Bore by gauge", measures: "needleJetBoreMm", value: 2.62 });
    const { readings } = handedReadings([bore, { ...bore, value: 2.56 }], left);
    expect(readings).toEqual([{ ...bore, value: 2.56, found: 2.62 }]);
    const plain = one({ name: "Difference at idle", measures: "", carburettor: null });
    expect(handedReadings([plain, plain], []).readings).toHaveLength(2);
  });
});

describe("the trend of a bike", () => {
  it("keeps each part, carburettor and station apart, the oldest reading first", () => {
    const at = (day: number) => new Date(Date.UTC(2026, 4, day));
    const row = {
      id: 1,
      inside: true,
      odometerKm: null,
      jobId: 1,
      jobNumber: "1",
      station: null,
      carburettor: 1,
    };
    const trends = trendsOf([
      { ...row, measures: "floatHeightMm", at: at(2), value: 13 },
      { ...row, measures: "needleMm", station: 30, at: at(2), value: 2.13 },
      { ...row, measures: "needleMm", station: null, at: at(2), value: 2.45 },
      { ...row, measures: "needleMm", station: null, at: at(1), value: 2.46 },
      { ...row, measures: "spoons", at: at(1), value: 1 },
    ]);
    expect(trends.map((one) => [one.name, one.readings.map((r) => r.value)])).toEqual([
      ["Needle diameter, 30 mm below the shoulder", [2.13]],
      ["Needle diameter, straight part", [2.46, 2.45]],
      ["Float height", [13]],
    ]);
  });
});
