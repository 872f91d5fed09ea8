import { describe, expect, it } from "vitest";
import { needs } from "@/lib/domain/packages/needs";
import type { Option, Recipe } from "@/lib/domain/packages/recipe";
import type { DescribedPart } from "@/lib/domain/tuning/describedParts";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { changedParts, changesOfParts, followedBy } from "@/lib/domain/tuning/partChange";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { TargetInput } from "@/lib/domain/tuning/targetTypes";
import { workedParts } from "@/lib/domain/tuning/workedParts";
import { OptionFormSchema } from "@/lib/schemas/recipeForms";
import { BREATHING } from "../support/breathing";
import { AS_FOUND, DROVER, mainJets, PLAIN_AIR } from "./tuning-demo";

const SPRING = {
  kind: "spring",
  change: "delivered",
  freeMm: 112,
  wireMm: 0.9,
  coils: 20,
  rateNPerM: 100,
} as const satisfies DescribedPart;

describe("described parts under changed settings", () => {
  it("a cut spring keeps rate times coils, and one that gets longer is another spring", () => {
    // EN 13906-1: k0 N0 = k1 N1, so 100 N/m at 20 coils is 125 N/m at 16.
    expect(
      followedBy(SPRING, { springLengthMm: 112, springCoils: 20 }, { springLengthMm: 89.6, springCoils: 16 }),
    ).toEqual({ ...SPRING, change: "cut", freeMm: 89.6, coils: 16, rateNPerM: 125 });
    expect(followedBy(SPRING, { springLengthMm: 112 }, { springLengthMm: 120 })).toMatchObject({
      change: "exchanged",
      rateNPerM: null,
    });
    expect(followedBy(SPRING, { springLengthMm: 112 }, { springLengthMm: 112, mainJet: 150 })).toBeNull();
  });
  it("holes are drilled, and an opening is added beside others or takes the place of one", () => {
    const holes: DescribedPart = { kind: "liftHoles", holesMm: [2.3, 2.8] };
    expect(followedBy(holes, { liftHoleMm: 2.562 }, { liftHoleCount: 2, liftHoleMm: 3 })).toEqual({
      kind: "liftHoles",
      holesMm: [3, 3],
    });
    const two: DescribedPart = {
      kind: "openings",
      openings: [
        { diameterMm: 30, breatherMm: 60 },
        { diameterMm: 40, breatherMm: null },
      ],
    };
    // 30² + 40² = 50²; one of 120 beside them makes 130.
    expect(followedBy(two, { airboxOpeningMm: 50 }, { airboxOpeningMm: 130 })).toEqual({
      kind: "openings",
      openings: [...two.openings, { diameterMm: 120, breatherMm: null }],
    });
    const one: DescribedPart = { kind: "openings", openings: [{ diameterMm: 30, breatherMm: 60 }] };
    expect(followedBy(one, { airboxOpeningMm: 30 }, { airboxOpeningMm: 51 })).toEqual({
      kind: "openings",
      openings: [{ diameterMm: 51, breatherMm: 60 }],
    });
  });
  it("a spring without coils or rate is told by its length alone, and stays where its figures do", () => {
    const cut = (part: Partial<typeof SPRING> | object, values: object, found: object = {}) =>
      followedBy({ ...SPRING, ...part } as DescribedPart, found, values);
    expect(cut({ coils: null }, { springLengthMm: 89.6 })).toEqual({
      ...SPRING,
      change: "cut",
      freeMm: 89.6,
      coils: null,
      rateNPerM: 125,
    });
    expect(cut({ coils: null }, { springLengthMm: 89.6, springCoils: 16 })).toMatchObject({ rateNPerM: 125 });
    expect(cut({ rateNPerM: null }, { springLengthMm: 89.6, springCoils: 16 })).toMatchObject({
      coils: 16,
      rateNPerM: null,
    });
    // 100 x 20 / 15 is 133.33: kept to a tenth.
    expect(cut({}, { springCoils: 15 })).toMatchObject({ freeMm: 112, coils: 15, rateNPerM: 133.3 });
    expect(cut({}, { springLengthMm: 112.05 })).toMatchObject({ change: "cut", freeMm: 112.05 });
    expect(cut({}, { springLengthMm: 112.2 })).toEqual({
      ...SPRING,
      change: "exchanged",
      freeMm: 112.2,
      wireMm: null,
      rateNPerM: null,
    });
    expect(cut({}, { springLengthMm: 100 }, { springLengthMm: 100.05 })).toBeNull();
    expect(cut({}, { springLengthMm: 100 }, { springLengthMm: 100.06 })).not.toBeNull();
    expect(cut({}, { springLengthMm: 100, springCoils: 18 }, { springLengthMm: 100 })).not.toBeNull();
    expect(cut({}, {}, { springLengthMm: 100 })).toBeNull();
  });
  it("holes and openings go by what is said of them, none left where none is said", () => {
    const holes = (holesMm: readonly number[], values: object) =>
      followedBy({ kind: "liftHoles", holesMm }, {}, values);
    expect(holes([2.3, 2.8], { liftHoleCount: 3 })).toMatchObject({ holesMm: [2.3, 2.3, 2.3] });
    expect(holes([2.3, 2.8], { liftHoleMm: 3 })).toMatchObject({ holesMm: [3, 3] });
    expect(holes([2.3], { liftHoleCount: 0 })).toMatchObject({ holesMm: [] });
    expect(holes([], { liftHoleCount: 2 })).toMatchObject({ holesMm: [] });
    expect(holes([2.3], { airboxOpeningMm: 40, springLengthMm: 90, mainJet: 140 })).toBeNull();
    type Opening = { readonly diameterMm: number; readonly breatherMm: number | null };
    const opened = (openings: readonly Opening[], airboxOpeningMm: number) =>
      followedBy({ kind: "openings", openings }, { airboxOpeningMm: 50 }, { airboxOpeningMm });
    const one = (diameterMm: number, breatherMm: number | null = null) => ({ diameterMm, breatherMm });
    expect(opened([one(30, 60), one(40)], 0)).toEqual({ kind: "openings", openings: [] });
    expect(opened([one(30, 60), one(40)], 30)).toEqual({ kind: "openings", openings: [one(30, 60)] });
    expect(opened([], 30)).toEqual({ kind: "openings", openings: [one(30)] });
    expect(opened([one(50, 60)], 0)).toEqual({ kind: "openings", openings: [] });
    // 2² + 2² + 1² = 3²: an opening of a millimetre is none.
    expect(
      followedBy({ kind: "openings", openings: [one(2, 9), one(2)] }, {}, { airboxOpeningMm: 3 }),
    ).toEqual({
      kind: "openings",
      openings: [one(3, 9)],
    });
    // 30² + 40² = 50², and 51² - 50² = 10.05²; a hair more than before is no further opening.
    expect(opened([one(30), one(40)], 51)).toEqual({
      kind: "openings",
      openings: [one(30), one(40), one(10)],
    });
    expect(
      followedBy({ kind: "openings", openings: [one(3), one(4)] }, {}, { airboxOpeningMm: 5.05 }),
    ).toEqual({
      kind: "openings",
      openings: [one(5.05)],
    });
  });
  it("a jet, a filter and a silencer follow no setting", () => {
    const filter: DescribedPart = { kind: "filter", name: "Foam", flowLMin: 2000, atPa: 1500 };
    const jet: DescribedPart = { kind: "jet", setting: "mainJet", number: 140, by: "flow", measured: 141 };
    for (const part of [filter, { ...filter, kind: "silencer" as const }, jet])
      expect(followedBy(part, { mainJet: 140 }, { mainJet: 150, springLengthMm: 90 })).toBeNull();
    expect(changedParts([jet, filter, SPRING], [], { springLengthMm: 112 }, { springLengthMm: 100 })).toEqual(
      [{ before: SPRING, after: { ...SPRING, change: "cut", freeMm: 100, rateNPerM: 100 } }],
    );
    const put = { ...filter, flowLMin: 3000 };
    expect(changedParts([], [put], {}, {})).toEqual([{ before: null, after: put }]);
    expect(changesOfParts([put, { kind: "liftHoles", holesMm: [3] }])).toEqual([
      { setting: "liftHoleCount", change: "set", value: 1 },
      { setting: "liftHoleMm", change: "set", value: 3 },
    ]);
  });
  it("what a package puts in stands before what its settings say", () => {
    const put = { ...SPRING, change: "exchanged", freeMm: 100, coils: 24 } as const;
    expect(changedParts([SPRING], [put], { springLengthMm: 112 }, { springLengthMm: 100 })).toEqual([
      { before: SPRING, after: put },
    ]);
    expect(changedParts([], [], { springLengthMm: 112 }, { springLengthMm: 100 })).toEqual([]);
  });
});

describe("settings and described parts brought together", () => {
  const found = { springLengthMm: 118, springCoils: 21 };
  const filter = { kind: "filter", name: "Foam", flowLMin: 2000, atPa: 1500 } as const;
  const put = { ...SPRING, change: "exchanged", freeMm: 110, coils: null } as const;
  const worked = (changed: object, partChanges: Parameters<typeof workedParts>[0]["partChanges"] = []) =>
    workedParts({ card: DROVER, partChanges }, { parts: [filter] }, found, { ...found, ...changed });
  it("tell a cut spring's length by its coils, and the other way round", () => {
    expect(worked({ springCoils: 18.9 }).values).toEqual({ springLengthMm: 106.2, springCoils: 18.9 });
    // Another part that is put in has no say in that.
    expect(worked({ springLengthMm: 106.2 }, [{ ...filter, flowLMin: 3000 }]).values).toEqual({
      springLengthMm: 106.2,
      springCoils: 18.9,
    });
  });
  it("leave the figures of a spring that is put in, and forget the coils of one that nobody counted", () => {
    expect(worked({ springLengthMm: 110 }, [put]).values).toEqual({ springLengthMm: 110 });
    expect(worked({ springLengthMm: 110 }, [filter, put]).values).toEqual({ springLengthMm: 110 });
    expect(worked({ springLengthMm: 110 }, [{ ...put, coils: 24 }]).values).toEqual({
      springLengthMm: 110,
      springCoils: 21,
    });
    expect(worked({ springLengthMm: 110 }, [{ ...put, change: "cut" }]).values).toEqual({
      springLengthMm: 110,
      springCoils: 21,
    });
  });
  it("tell what the fuel model takes of both before and after", () => {
    const flows = { filter: { flowLMin: 2000, atPa: 1500 } };
    const { before, after, parts } = worked({ springLengthMm: 110 }, [put]);
    expect(before).toEqual({ flows });
    expect(parts).toEqual([{ before: null, after: put }]);
    expect(after).toEqual({ flows, spring: { freeMm: 110, coils: null, rateNPerM: 100, exchanged: true } });
    expect(worked({}).after).toEqual({ flows, spring: undefined });
    const wider = { ...filter, flowLMin: 3000 };
    const kept = workedParts(
      { card: DROVER, partChanges: [wider] },
      { parts: [SPRING, filter] },
      found,
      found,
    );
    expect(kept.after).toEqual({
      spring: { freeMm: 112, coils: 20, rateNPerM: 100, exchanged: false },
      flows: { filter: { flowLMin: 3000, atPa: 1500 } },
    });
  });
});

describe("an exchanged spring in the settings", () => {
  const input = (rateNPerM: number | null): TargetInput => ({
    card: DROVER,
    carburettors: [
      {
        name: "single",
        settings: AS_FOUND,
      },
    ],
    changes: [
      { setting: "mainJet", change: "computed" },
      { setting: "springLengthMm", change: "set", value: 118 },
    ],
    partChanges: [{ kind: "spring", change: "exchanged", freeMm: 118, wireMm: null, coils: 15, rateNPerM }],
    now: PLAIN_AIR,
    baseline: PLAIN_AIR,
    jets: mainJets([137.5, 140, 142.5]),
  });
  const lift = (rate: number | null) => {
    const [c] = targetSettings(input(rate)).carburettors;
    if (!c) throw new Error("no carburettor");
    return fuelCurve(c.after, PLAIN_AIR, 11);
  };
  it("a stiffer one of the same length lets the slide rise less", () => {
    const rate = DROVER.springRateNPerM?.value ?? 0;
    const [soft, same, stiff] = [lift(0.8 * rate), lift(rate), lift(1.3 * rate)].map(
      (curve) => curve.points[5]?.liftMm ?? 0,
    );
    expect(stiff).toBeLessThan(same ?? 0);
    expect(soft).toBeGreaterThan(same ?? 0);
  });
  it("one of unknown rate is told as an assumption and widens the band", () => {
    const [known, unknown] = [lift(DROVER.springRateNPerM?.value ?? 0), lift(null)];
    expect(unknown.assumptions.map((one) => one.fact).join()).toContain(
      "Rate of the exchanged slide spring: 110 N/m, as delivered",
    );
    expect(() => lift(3)).toThrow("spring rate is 3 N/m");
    const width = (curve: typeof known) => (curve.points[10]?.high ?? 0) - (curve.points[10]?.low ?? 0);
    expect(width(unknown)).toBeGreaterThan(width(known));
    expect(targetSettings(input(null)).carburettors[0]?.springRate).toBeNull();
  });
});

describe("parts in a package", () => {
  const [first] = BREATHING.options;
  if (!first) throw new Error("no option");
  const option = (key: string, more: Partial<Option>): Option => ({
    ...first,
    key,
    changes: [],
    parts: [],
    operations: [],
    ...more,
  });
  const recipe = (...options: Option[]): Recipe => ({ ...BREATHING, options, rules: [] });
  it("bring their figures as settings, and two options that differ are refused", () => {
    const holes = option("holes", { leaves: [{ kind: "liftHoles", holesMm: [3, 3] }] });
    const needed = needs(recipe(holes), ["holes"]);
    expect(needed.changes).toEqual([
      { setting: "liftHoleCount", change: "set", value: 2 },
      { setting: "liftHoleMm", change: "set", value: 3 },
    ]);
    expect(needed.leaves).toEqual(holes.leaves);
    const filter = (name: string) =>
      option(name, { leaves: [{ kind: "filter", name, flowLMin: null, atPa: null }] });
    expect(() => needs(recipe(filter("foam"), filter("gauze")), ["foam", "gauze"])).toThrow("the air filter");
  });
  it("are written in the option's form, with what is wrong told at its field", () => {
    const form = { packageId: "1", name: "Spring", group: "g", key: "" };
    const said = OptionFormSchema.parse({
      ...form,
      leavesSpring: "exchanged",
      leavesFreeMm: "104,5",
      leavesRate: "118",
      leavesOpenings: "48 60; 30",
    });
    expect(said.item.leaves).toEqual([
      { kind: "spring", change: "exchanged", freeMm: 104.5, wireMm: null, coils: null, rateNPerM: 118 },
      {
        kind: "openings",
        openings: [
          { diameterMm: 48, breatherMm: 60 },
          { diameterMm: 30, breatherMm: null },
        ],
      },
    ]);
    const wrong = OptionFormSchema.safeParse({ ...form, leavesSpring: "cut", leavesHoles: "2.8; many" });
    expect(wrong.error?.issues.map((issue) => issue.path[0])).toEqual(["leavesFreeMm", "leavesHoles"]);
  });
});
