import { describe, expect, it } from "vitest";
import { airFromReading } from "@/lib/domain/air/weather";
import { Refusal } from "@/lib/domain/refusal";
import { applyChanges, onStep, valuesOf } from "@/lib/domain/tuning/changes";
import { expectedLoss, leastLoss, normalBelow, probabilityLeaner } from "@/lib/domain/tuning/choose";
import { bothLaws, densityJet } from "@/lib/domain/tuning/densityJet";
import { chooseJet, type JetQuestion, listCandidates } from "@/lib/domain/tuning/jetChoice";
import { mainLimitsOver } from "@/lib/domain/tuning/jetLimits";
import { jetNote } from "@/lib/domain/tuning/jetNote";
import { heldBack } from "@/lib/domain/tuning/jetStep";
import { ratios, springRatio } from "@/lib/domain/tuning/ratios";
import { outOfReach, unknownFor } from "@/lib/domain/tuning/targetGaps";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { JetCandidate, JetOnHand, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { freerBreathing } from "@/lib/domain/tuning/tradeRules";
import { fillingAt, fillingFrom, usualFilling } from "@/lib/domain/tuning/volumetric";
import { OPENED, PLAIN_AIR } from "./tuning-demo";

const known = <T>(value: T) => ({ value, how: "read" as const });

describe("the cost of a guess", () => {
  // Tables of the normal distribution: 0.8413 at 1, 0.9772 at 2, 0.0668 at -1.5.
  it("stands on the normal distribution's table", () => {
    expect(normalBelow(1)).toBeCloseTo(0.841345, 6);
    expect(normalBelow(2)).toBeCloseTo(0.97725, 6);
    expect(normalBelow(-1.5)).toBeCloseTo(0.066807, 6);
  });

  it("is the error itself where nothing is unsure, lean times its cost", () => {
    expect(expectedLoss(0.02, 0, 3)).toBe(0.02);
    expect(expectedLoss(-0.02, 0, 3)).toBe(0.06);
    expect(expectedLoss(0, 0, 3)).toBe(0);
    // Half a normal's mean is sigma / sqrt(2 pi): rich once, lean three times.
    expect(expectedLoss(0, 0.1, 3)).toBeCloseTo((4 * 0.1) / Math.sqrt(2 * Math.PI), 7);
    expect(() => expectedLoss(11, 0.1, 3)).toThrow("error is 11");
  });

  it("is a risk of running lean beyond a limit: one sigma away it is 15.9 %", () => {
    expect(probabilityLeaner(0.92 * Math.exp(-0.03), 0.03, 0.92)).toBeCloseTo(0.158655, 6);
    expect(probabilityLeaner(0.92, 0, 0.92)).toBe(0);
    expect(probabilityLeaner(0.91, 0, 0.92)).toBe(0);
    expect(probabilityLeaner(0.93, 0, 0.92)).toBe(1);
  });

  it("takes the least, the richer of two that are as good as equal, and the first of two alike", () => {
    const of = (...pairs: (readonly [loss: number, phiError: number])[]) =>
      leastLoss(pairs.map(([loss, phiError]) => ({ loss, phiError })));
    expect(of([2, 0], [1, 0], [3, 0])).toBe(1);
    // A millionth apart is as good as equal, on either side.
    expect(of([1e-6, 1], [0, 0])).toBe(0);
    expect(of([1e-6, 0], [0, 1])).toBe(1);
    expect(of([1, 0.1], [1 + 5e-7, 0.2])).toBe(1);
    expect(of([1, 0.1], [1 + 5e-6, 0.2])).toBe(0);
    expect(of([1, 0.1], [1 - 5e-7, 0])).toBe(0);
    expect(of([1, 0.1], [1, 0.1])).toBe(0);
  });
});

const jet = (size: number, free: number, more: Partial<JetOnHand> = {}): JetOnHand => ({
  setting: "mainJet",
  convention: "bore",
  size,
  free,
  orderable: false,
  ...more,
});
/** Richness goes as a jet's area, 140 being right. */
const question = (more: Partial<JetQuestion> = {}): JetQuestion => ({
  setting: "mainJet",
  convention: "bore",
  exact: 140,
  fitted: null,
  jets: [],
  needed: 1,
  error: (size) => 2 * Math.log(size / 140),
  sigma: 0.012,
  lambdaSigma: 0.03,
  because: [{ fact: "asked", from: "test" }],
  ...more,
});

describe("a jet chosen among those that exist", () => {
  const sizes = (q: Partial<JetQuestion>) => listCandidates(question(q)).map((c) => c.size);
  it("is looked for among what lies free or can be ordered, of its own kind, in order of size", () => {
    const jets = [
      jet(145, 1),
      jet(135, 0.5),
      jet(137.5, 0, { orderable: true }),
      jet(150, 3, { setting: "pilotJet" }),
      jet(132.5, 0),
      jet(130, 2.9),
    ];
    expect(sizes({ jets })).toEqual([130, 137.5, 145]);
    expect(listCandidates(question({ jets })).map((c) => c.free)).toEqual([2, 0, 1]);
    expect(sizes({ jets, floor: 137.5, ceiling: 145 })).toEqual([137.5, 145]);
    expect(sizes({ jets, floor: 137.6, ceiling: 144.9 })).toEqual([]);
    expect(sizes({ jets, fitted: 140 })).toEqual([130, 137.5, 140, 145]);
    expect(sizes({ jets, fitted: 145 })).toEqual([130, 137.5, 145]);
  });

  it("is looked for on the usual half sizes about the exact one where none is listed", () => {
    expect(sizes({})).toEqual([137.5, 140, 142.5, 145]);
    expect(sizes({ exact: 141.3 })).toEqual([140, 142.5, 145, 147.5]);
    expect(sizes({ floor: 141 })).toEqual([142.5, 145]);
    expect(sizes({ ceiling: 138 })).toEqual([135, 137.5]);
    expect(sizes({ floor: 137.5 })).toEqual([137.5, 140, 142.5, 145]);
    expect(sizes({ ceiling: 142.5 })).toEqual([137.5, 140, 142.5]);
    expect(listCandidates(question({ fitted: 120 })).map((c) => c.orderable)).toEqual(
      new Array(5).fill(false),
    );
    expect(sizes({ exact: 1 })).toEqual([2.5, 5, 7.5]);
    expect(sizes({ fitted: 120 })).toEqual([120, 137.5, 140, 142.5, 145]);
  });

  it("is the one of least expected loss, which leans to the rich side, with the next best beside it", () => {
    const choice = chooseJet(question({ jets: [137.5, 140, 142.5].map((s) => jet(s, 1)) }));
    expect(choice.chosen.size).toBe(140);
    expect(choice.runnerUp?.size).toBe(142.5);
    expect(choice.chosen.phiError).toBeCloseTo(0, 12);
    expect(choice).toMatchObject({ inDrawer: true, note: "", exact: 140, firmness: "starting point" });
    expect(choice.because).toEqual([{ fact: "asked", from: "test" }]);
    // 0.88 is 1.48 sigma of 3 % below 0.92: 6.9 %.
    expect(choice.chosen.leanRisk).toBeCloseTo(0.0692, 3);
    // Between 137.5 (3.5 % lean) and 142.5 (3.6 % rich) the richer.
    expect(chooseJet(question({ jets: [jet(137.5, 1), jet(142.5, 1)] })).chosen.size).toBe(142.5);
  });

  it("is the usual size about the exact one, not in stock or to order, where a limit leaves none", () => {
    const none = chooseJet(question({ exact: 141.3, jets: [jet(135, 1)], floor: 137, ceiling: 145 }));
    expect(none.chosen).toMatchObject({ size: 142.5, free: 0, orderable: false });
    expect(none).toMatchObject({ runnerUp: null, nearestInDrawer: null, inDrawer: false });
  });

  it("has the risk of the lambda that its own error makes", () => {
    const lean = chooseJet(question({ jets: [jet(135, 1)] })).chosen;
    const log = 2 * Math.log(135 / 140);
    expect(lean.leanRisk).toBeCloseTo(probabilityLeaner(0.88 * Math.exp(-log), 0.03, 0.92), 12);
    expect(lean.leanRisk).toBeGreaterThan(0.5);
  });

  it("takes the drawer's where it loses at most a hundredth more than the best, else the best", () => {
    const near = question({ sigma: 0.001, jets: [jet(140, 0, { orderable: true }), jet(140.5, 1)] });
    expect(chooseJet(near)).toMatchObject({ chosen: { size: 140.5 }, best: { size: 140 }, inDrawer: true });
    const far = question({ jets: [jet(140, 0, { orderable: true }), jet(145, 1)] });
    expect(chooseJet(far)).toMatchObject({
      chosen: { size: 140 },
      nearestInDrawer: { size: 145 },
      inDrawer: false,
      note: "Not in the drawer: order 140. Nearest in the drawer: 145.",
    });
    const two = { ...near, needed: 2 };
    expect(chooseJet(two)).toMatchObject({ chosen: { size: 140 }, nearestInDrawer: null, inDrawer: false });
  });

  it("leaves the fitted jet where it is right to half a per cent, and counts it as ready", () => {
    const fitted = chooseJet(question({ fitted: 140, sigma: 0.1, jets: [jet(142.5, 1), jet(145, 1)] }));
    expect(fitted).toMatchObject({ chosen: { size: 140 }, note: "The fitted jet stays.", inDrawer: true });
    expect(fitted.best.size).toBeGreaterThan(140);
    const off = chooseJet(question({ fitted: 139, sigma: 0.1, jets: [jet(142.5, 1), jet(145, 1)] }));
    expect(off.chosen.size).not.toBe(139);
    expect(chooseJet(question({ fitted: 140, jets: [] }))).toMatchObject({ chosen: { size: 140 } });
  });

  it("reports a size that is settled already, listed or not, and what would be best", () => {
    const jets = [jet(137.5, 2), jet(140, 2)];
    expect(chooseJet(question({ jets, given: 137.5 }))).toMatchObject({
      chosen: { size: 137.5, free: 2 },
      best: { size: 140 },
      runnerUp: { size: 140 },
    });
    expect(chooseJet(question({ jets, given: 150 }))).toMatchObject({
      chosen: { size: 150, free: 0 },
      note: "No 150 is listed in stock or to order. Nearest in the drawer: 140.",
    });
  });

  it("reads another numbering by area, is less sure of it, and says so", () => {
    // Flow 196 has the area of bore 140.
    const other = chooseJet(question({ jets: [jet(196, 1, { convention: "flow" })] }));
    expect(other.chosen.phiError).toBeCloseTo(0, 9);
    expect(other.convention).toBe("flow");
    expect(other.note).toContain("approximate");
    expect(other.chosen.loss).toBeCloseTo(expectedLoss(0, Math.hypot(0.012, 0.04), 3), 9);
    expect(other.chosen.leanRisk).toBeCloseTo(probabilityLeaner(0.88, Math.hypot(0.03, 0.04), 0.92), 9);
    expect(sizesOf(question({ jets: [jet(196, 1, { convention: "flow" })], floor: 141 }))).toEqual([]);
    // 196 by flow is not the fitted 196 by bore: it has to be ordered, and it is not a settled 196 either.
    const flows = [jet(196, 0, { convention: "flow", orderable: true })];
    expect(chooseJet(question({ fitted: 196, jets: flows }))).toMatchObject({
      chosen: { size: 196, convention: "flow" },
      inDrawer: false,
    });
    expect(chooseJet(question({ given: 196, jets: flows })).chosen.convention).toBe("bore");
    const both = question({ fitted: 196, jets: [jet(196, 1, { convention: "flow" })] });
    expect(
      listCandidates(both)
        .map((c) => c.convention)
        .sort(),
    ).toEqual(["bore", "flow"]);
  });

  it("costs less to have lean at idle, and has no risk at full load there", () => {
    const pilot = chooseJet(question({ setting: "pilotJet", jets: [jet(139, 1, { setting: "pilotJet" })] }));
    expect(pilot.chosen.leanRisk).toBe(0);
    expect(pilot.chosen.loss).toBeCloseTo(expectedLoss(2 * Math.log(139 / 140), 0.012, 1.5), 9);
  });
  const sizesOf = (q: JetQuestion) => listCandidates(q).map((c) => c.size);
});

describe("what to know about a chosen jet's stock", () => {
  const candidate = (free: number, orderable: boolean): JetCandidate => ({
    size: 140,
    convention: "bore",
    phiError: 0,
    leanRisk: 0,
    loss: 0,
    free,
    orderable,
  });
  const note = (free: number, orderable: boolean, drawer: number | null = null, needed = 2) =>
    jetNote(
      { needed, convention: "bore" },
      candidate(free, orderable),
      false,
      drawer === null ? null : { ...candidate(9, false), size: drawer },
    );
  it("is told in words: enough, too few, none, and what lies nearest", () => {
    expect(note(2, false)).toBe("");
    expect(note(1, true)).toBe("Only 1 of 2 in the drawer: order 140.");
    expect(note(0, true, 145)).toBe("Not in the drawer: order 140. Nearest in the drawer: 145.");
    expect(note(1, false)).toBe("Too few 140 are listed in stock or to order.");
    expect(note(0, false, 145)).toBe("No 140 is listed in stock or to order. Nearest in the drawer: 145.");
    expect(jetNote({ needed: 1, convention: "flow" }, candidate(1, false), true, null)).toMatch(
      /^The fitted jet stays\. Other numbering than the fitted jet, approximate/,
    );
  });
});

describe("air density alone", () => {
  const thin = airFromReading({ stationPa: 80_000, temperatureC: 20, humidity: 0.4 });
  it("rounds to the richer size, also where it lands on one, and says what it follows from", () => {
    expect(densityJet(140, "bore", PLAIN_AIR, PLAIN_AIR)).toMatchObject({ size: 140, areaRatio: 1 });
    expect(densityJet(141, "bore", PLAIN_AIR, PLAIN_AIR).size).toBe(142.5);
    const up = densityJet(140, "bore", thin, PLAIN_AIR);
    expect(up.exact).toBeCloseTo(140 * (80_000 / 101_325) ** 0.25, 0);
    expect(up.size).toBe(132.5);
    expect(up.because.map((r) => r.firmness)).toEqual(["firm", "firm"]);
  });

  it("says its steps in figures: ISA at 3000 m has 74.2 % of the density, area x 0.8615, exactly 129.9 (ISO 2533)", () => {
    const sea = airFromReading({ stationPa: 101_325, temperatureC: 15, humidity: 0 });
    const high = airFromReading({ stationPa: 70_108.6, temperatureC: -4.491, humidity: 0 });
    expect(densityJet(140, "bore", high, sea).because).toEqual([
      {
        fact: "Dry air 74.2 % of where 140 was right",
        from: "CIPM-2007",
        effect: expect.stringMatching(/^fuel area x 0\.861\d by the square-root law$/),
        firmness: "firm",
      },
      {
        fact: "Exactly 129.9 by air density alone",
        from: "square-root law, Heywood 7.2",
        effect: "130, rounded to the richer size",
        firmness: "firm",
      },
    ]);
    const fuel = { now: "E85", reference: "E10" };
    // 14.01 / 9.80 x sqrt(750 / 783) is 1.3991.
    expect(densityJet(140, "bore", sea, sea, fuel).because[0]).toEqual({
      fact: "E10 before, E85 now",
      from: "stoichiometric ratio and density of the fuels",
      effect: "fuel area x 1.399",
      firmness: "firm",
    });
  });

  it("goes with a change of fuel by ratio and root of density: E10 to E85 is 1.4 times the area", () => {
    const fuel = { now: "E85", reference: "E10" };
    const changed = densityJet(140, "bore", PLAIN_AIR, PLAIN_AIR, fuel);
    expect(changed.areaRatio).toBeCloseTo((14.01 / 9.8) * Math.sqrt(750 / 783), 9);
    expect(changed.because[0]?.fact).toBe("E10 before, E85 now");
    const same = densityJet(140, "bore", PLAIN_AIR, PLAIN_AIR, { now: "E10", reference: "E10" });
    expect(same.areaRatio).toBe(1);
    expect(same.because).toHaveLength(2);
  });

  it("is only as firm as the air that was measured", () => {
    const guess = { ...thin, assumed: true };
    expect(densityJet(140, "bore", guess, PLAIN_AIR).because.at(-1)?.firmness).toBe("starting point");
    expect(densityJet(140, "bore", PLAIN_AIR, guess).because).toHaveLength(3);
  });

  it("is told beside the whole model where they differ by half a step, and alone where they agree", () => {
    const density = { exact: 130, size: 130, areaRatio: 0.8615, because: [{ fact: "density", from: "law" }] };
    expect(bothLaws({ ...density, exact: 140.04 }, 140, 140, "cv")).toEqual([]);
    expect(bothLaws({ ...density, exact: 140.06 }, 140, 140, "cv")).toEqual(density.because);
    expect(bothLaws(density, 131.2, 140, "cv")).toEqual(density.because);
    expect(bothLaws(density, 131.25, 140, "cv")).toHaveLength(3);
    const leaner = bothLaws(density, 126, 140, "cv");
    expect(leaner[1]?.effect).toContain("spring-loaded slide");
    expect(leaner[2]?.firmness).toBe("starting point");
    expect(leaner).toHaveLength(3);
    expect(leaner[1]).toMatchObject({ fact: "Exactly 126.0 by the whole model", firmness: "starting point" });
    expect(leaner[1]?.from).toContain("constant depression");
    expect(leaner[2]).toMatchObject({
      fact: "130 first; lambda there decides between 130.0 and 126.0",
      effect: "rich at full load: the model is right",
    });
    const richer = bothLaws(density, 134, 140, "mechanical");
    expect(richer[1]?.from).not.toContain("constant depression");
    expect(richer[1]?.effect).toBe("breathing and slide besides the air");
    expect(richer[2]?.effect).toContain("lean at full load");
  });
});

describe("limits of what is recommended unmeasured", () => {
  const limits = (exact: number, size: number, described: number, high = 150) => ({
    low: 130,
    high,
    density: { exact, size, areaRatio: 1, because: [] },
    described,
  });
  it("over several airs are the richest air's density on the lean side, and the most that any asks on the rich", () => {
    const over = mainLimitsOver([limits(130, 130, 128), limits(136, 137.5, 141)], 140);
    expect(over.density.exact).toBe(136);
    expect(mainLimitsOver([limits(136, 137.5, 141), limits(130, 130, 128)], 140).density.exact).toBe(136);
    expect(over.low).toBeCloseTo(136, 6);
    // 141 rounds up to 142.5, and one step more.
    expect(over.high).toBeCloseTo(145, 6);
    const near = mainLimitsOver([limits(139, 140, 139)], 140);
    expect(near.low).toBeCloseTo(137.5, 6);
    expect(near.high).toBeCloseTo(142.5, 6);
  });

  it("fall away once every air was measured in, and not before", () => {
    const free = limits(130, 130, 128, Number.POSITIVE_INFINITY);
    expect(mainLimitsOver([free, free], 140)).toMatchObject({ low: 0, high: Number.POSITIVE_INFINITY });
    expect(mainLimitsOver([free, limits(130, 130, 128)], 140).high).toBeLessThan(200);
    expect(() => mainLimitsOver([], 140)).toThrow(Refusal);
  });

  it("give a pilot jet one step, however much more a change of the screw asks for", () => {
    const { carburettors, refusals } = targetSettings({
      ...OPENED,
      jets: [],
      changes: [
        { setting: "mixtureScrewTurns", change: "set", value: 1.5 },
        { setting: "pilotJet", change: "computed" },
      ],
    });
    expect(carburettors[0]?.pilotJet?.exact).toBeGreaterThan(48.75);
    expect(carburettors[0]?.pilotJet?.chosen.size).toBe(47.5);
    expect(refusals).toMatchObject([{ setting: "pilotJet", wanted: 50, allowed: 47.5 }]);
  });

  it("are told with how far it wanted to go, what is allowed, and what to measure where", () => {
    const main = heldBack("mainJet", "left", 127.5, 130, 140, 130);
    expect(main.message).toBe(
      "Main jet 127.5 is more than one step leaner than 140; nothing was measured. Air density alone asks for 130.",
    );
    expect(main.remedy).toMatch(/^Fit 130, measure lambda at full load .*, then compute again\.$/);
    expect(main).toMatchObject({ carburettor: "left", setting: "mainJet", wanted: 127.5, allowed: 130 });
    expect(heldBack("mainJet", "", 127.5, 137.5, 140, 140).message).not.toContain("density");
    expect(heldBack("pilotJet", "", 50, 47.5, 45, 42.5)).toMatchObject({
      message: "Pilot jet 50 is more than one step richer than 45; nothing was measured.",
      remedy: expect.stringContaining("at idle, held for 2 seconds"),
    });
  });
});

describe("changes of a package", () => {
  const found = { mainJet: known(140), clipPosition: known(3) };
  it("are set or added in order, from what was found or delivered, each with its reason", () => {
    const done = applyChanges(found, [
      { setting: "clipPosition", change: "add", value: 1 },
      { setting: "clipPosition", change: "add", value: 1 },
      { setting: "airboxOpeningMm", change: "add", value: 40 },
      { setting: "snorkelFitted", change: "set", value: 0 },
      { setting: "headerWeldMm", change: "set", value: 1 },
    ]);
    expect(done.values).toEqual({
      mainJet: 140,
      clipPosition: 5,
      airboxOpeningMm: 40,
      snorkelFitted: 0,
      headerWeldMm: 1,
    });
    expect(done.because.clipPosition).toEqual([{ fact: "Changed by 1", from: "package", effect: "from 4" }]);
    expect(done.because.headerWeldMm?.[0]).toMatchObject({ fact: "Set to 1", effect: "not known as found" });
    expect(done.because.airboxOpeningMm?.[0]?.effect).toBe("from 0");
    expect(done.warnings).toEqual([]);
  });

  it("that are computed wait, until a later one sets the value", () => {
    const wait = applyChanges(found, [{ setting: "mainJet", change: "computed" }]);
    expect([...wait.computed]).toEqual(["mainJet"]);
    const set = applyChanges(found, [
      { setting: "mainJet", change: "computed" },
      { setting: "mainJet", change: "set", value: 150 },
    ]);
    expect([...set.computed]).toEqual([]);
    for (const setting of [
      "mainJet",
      "pilotJet",
      "clipPosition",
      "needleShimBelowMm",
      "slideCutawayMm",
      "mixtureScrewTurns",
      "idleSpeedRpm",
    ])
      expect([...applyChanges({}, [{ setting, change: "computed" }]).computed]).toEqual([setting]);
    expect(() => applyChanges({}, [{ setting: "headerWeldMm", change: "computed" }])).toThrow(
      "cannot be computed",
    );
  });

  it("to what nobody knows are left out with a warning, and impossible ones refused", () => {
    const unknown = applyChanges({}, [
      { setting: "pilotJet", change: "add", value: 2.5 },
      { setting: "floatHeightMm", change: "add", value: 1 },
    ]);
    expect(unknown.values).toEqual({});
    expect(unknown.warnings.map((w) => w.message)).toEqual([
      "Pilot jet is to change by 2.5, but is not known as found.",
      "Float height is to change by 1 mm, but is not known as found.",
    ]);
    expect(unknown.warnings[1]).toMatchObject({ remedy: "Record Float height as found.", source: "model" });
    expect(() => applyChanges({}, [{ setting: "mainJet", change: "set" }])).toThrow("without a value");
    expect(() => applyChanges({}, [{ setting: "noSuch", change: "set", value: 1 }])).toThrow("not a setting");
    expect(() => applyChanges(found, [{ setting: "clipPosition", change: "add", value: 5 }])).toThrow(
      "Clip position from top is 8, outside 1 to 7.",
    );
    expect(() => valuesOf({ floatHeightMm: known(50) })).toThrow("Float height is 50 mm");
    expect(valuesOf({ mainJet: known(140), pilotJet: undefined as never })).toEqual({ mainJet: 140 });
  });

  it("land on the setting's own step, inside its range", () => {
    expect(onStep("mainJet", 141.3)).toBe(142.5);
    expect(onStep("mainJet", 141.2)).toBe(140);
    expect(onStep("mainJet", 1000)).toBe(300);
    expect(onStep("mainJet", 0)).toBe(40);
    expect(onStep("mixtureScrewTurns", 1.8)).toBe(1.75);
    expect(onStep("needleSeatMm", 0.15)).toBe(0.15);
  });
});

describe("ratios of slide and spring", () => {
  const old: SettingValues = { liftHoleCount: 1, liftHoleMm: 2.5, springCoils: 20, springLengthMm: 112 };
  it("are the holes' areas turned over, and the coils turned over (EN 13906-1)", () => {
    const both = ratios({}, old, { ...old, liftHoleCount: 2, liftHoleMm: 3, springCoils: 18 });
    expect(both.slideRise?.value).toBeCloseTo(6.25 / 18, 12);
    expect(both.slideRise?.firmness).toBe("starting point");
    expect(both.slideRise?.because[0]).toMatchObject({
      fact: "1 x 2.5 mm to 2 x 3 mm",
      effect: "area x 2.88, rise time x 0.347",
    });
    expect(both.springRate).toMatchObject({
      value: 20 / 18,
      firmness: "firm",
      because: [expect.objectContaining({ fact: "20 to 18 coils", effect: "rate x 1.11" })],
    });
    expect(ratios({ carburettorType: known("mechanical" as const) }, old, old)).toEqual({
      slideRise: null,
      springRate: null,
    });
    expect(ratios({ carburettorType: known("cv" as const) }, old, old).springRate?.value).toBe(1);
  });

  it("go by the rates of springs that were described, and are unknown of another spring without one", () => {
    const spring = (rateNPerM: number | null, exchanged: boolean) => ({
      freeMm: 112,
      coils: null,
      rateNPerM,
      exchanged,
    });
    const rate = (from: ReturnType<typeof spring> | undefined, to: ReturnType<typeof spring> | undefined) =>
      ratios({}, old, { ...old, springCoils: 18 }, { from, to }).springRate;
    expect(rate(spring(110, false), spring(88, true))).toEqual({
      value: 0.8,
      because: [{ fact: "110 to 88 N/m", from: "rates as described", effect: "rate x 0.80" }],
      firmness: "firm",
    });
    expect(rate(undefined, spring(null, true))).toBeNull();
    expect(rate(spring(110, false), spring(null, true))).toBeNull();
    expect(rate(undefined, spring(88, true))).toBeNull();
    // A delivered spring that was described and cut, or one that stays: the coils tell it.
    expect(rate(spring(null, false), spring(88, false))?.value).toBeCloseTo(20 / 18, 12);
    const stays = spring(null, true);
    expect(rate(stays, stays)?.value).toBeCloseTo(20 / 18, 12);
    expect(rate(spring(110, false), undefined)?.value).toBeCloseTo(20 / 18, 12);
  });

  it("go by length where the coils did not change or are not known, and are unknown where a side is", () => {
    expect(springRatio(old, { ...old, springLengthMm: 100 })).toMatchObject({
      value: 1.12,
      because: [expect.objectContaining({ fact: "112 to 100 mm" })],
    });
    expect(springRatio({ springLengthMm: 112 }, { springLengthMm: 100 })?.value).toBeCloseTo(1.12, 12);
    expect(springRatio({ springLengthMm: 112 }, { springCoils: 18 })).toBeNull();
    expect(springRatio({}, {})).toBeNull();
    for (const missing of [
      { liftHoleCount: 0, liftHoleMm: 3 },
      { liftHoleMm: 3 },
      { liftHoleCount: 2 },
      {},
    ]) {
      expect(ratios({}, old, missing).slideRise).toBeNull();
      expect(ratios({}, missing, old).slideRise).toBeNull();
    }
  });
});

describe("breathing", () => {
  it("is freer with a larger opening, no snorkel or less weld, and not by what stayed or was never said", () => {
    const was: SettingValues = { airboxOpeningMm: 20, snorkelFitted: 1, headerWeldMm: 3 };
    expect(freerBreathing(was, { ...was, airboxOpeningMm: 21 })).toBe(true);
    expect(freerBreathing(was, { ...was, snorkelFitted: 0 })).toBe(true);
    expect(freerBreathing(was, { ...was, headerWeldMm: 2 })).toBe(true);
    expect(freerBreathing(was, was)).toBe(false);
    expect(freerBreathing(was, { ...was, airboxOpeningMm: 19 })).toBe(false);
    expect(freerBreathing(was, { ...was, headerWeldMm: 4 })).toBe(false);
    expect(freerBreathing({ ...was, snorkelFitted: 0 }, { ...was, snorkelFitted: 0 })).toBe(false);
    expect(freerBreathing({}, { airboxOpeningMm: 0, snorkelFitted: 1, headerWeldMm: 1 })).toBe(false);
    expect(freerBreathing({}, { snorkelFitted: 0 })).toBe(true);
    expect(freerBreathing({ headerWeldMm: 2 }, {})).toBe(true);
  });
});

describe("filling over engine speed", () => {
  it("falls as a parabola around 80 % of rated speed and never under half (judgement)", () => {
    expect(usualFilling(0.8)).toBe(1);
    expect(usualFilling(1)).toBeCloseTo(0.98, 12);
    expect(usualFilling(0.6)).toBeCloseTo(0.98, 12);
    expect(usualFilling(1.9)).toBe(0.5);
    expect(() => usualFilling(2.1)).toThrow("engine speed over rated speed is 2.1");
  });

  it("is the bike's own torque over its best, in order of speed, straight between", () => {
    const rpm = [6000, 2000, 3000, 4000, 5000];
    const own = fillingFrom(rpm, [40, 30, 45, 50, 48], 8000);
    expect(own.map((p) => p.speed)).toEqual([0.25, 0.375, 0.5, 0.625, 0.75]);
    expect(own.map((p) => p.filling)).toEqual([0.6, 0.9, 1, 0.96, 0.8]);
    expect(fillingAt(0.3125, own)).toBeCloseTo(0.75, 12);
    expect(fillingAt(0.5, own)).toBe(1);
    expect([fillingAt(0.1, own), fillingAt(2, own)]).toEqual([0.6, 0.8]);
    expect(fillingAt(0.8, undefined)).toBe(1);
    expect(fillingAt(0.8, [])).toBe(1);
    expect(
      fillingAt(0.5, [
        { speed: 0.5, filling: 0.9 },
        { speed: 0.5, filling: 0.7 },
      ]),
    ).toBe(0.9);
  });

  it("needs five readings over half of rated speed, with torque in each", () => {
    const even = [40, 40, 40, 40, 40];
    expect(() => fillingFrom([2000, 3000, 4000, 6000], [1, 1, 1, 1], 8000)).toThrow("too short");
    expect(() => fillingFrom([2000, 3000, 4000, 5000, 5999], even, 8000)).toThrow("too short");
    expect(fillingFrom([2000, 3000, 4000, 5000, 6000], even, 8000)).toHaveLength(5);
    expect(() => fillingFrom([2000, 3000, 4000, 5000, 6000], [40, 40, 40, 40], 8000)).toThrow("torque");
    expect(() => fillingFrom([2000, 3000, 4000, 5000, 6000], even, 900)).toThrow("rated speed is 900 rpm");
  });
});

describe("what is missing to compute", () => {
  it("is named setting by setting, unless the card stands in; the needle's height is asked for by itself", () => {
    const all = new Set(["mainJet", "clipPosition", "needleShimBelowMm", "mixtureScrewTurns"] as const);
    const named = (screw: boolean, found: SettingValues = {}) =>
      unknownFor(all, found, screw).map((w) => w.message.split(" is to")[0]);
    expect(named(false)).toEqual(["Main jet", "Mixture screw"]);
    expect(named(true)).toEqual(["Main jet"]);
    expect(unknownFor(all, {}, true)[0]).toMatchObject({
      remedy: "Record Main jet as found.",
      source: "model",
    });
    expect(named(false, { mainJet: 140 })).toEqual(["Mixture screw"]);
    expect(outOfReach("pilotJet", "why").message).toBe("No pilot jet meets the target: why.");
    expect(outOfReach("mainJet", "why").message).toBe("No main jet meets the target: why.");
  });
});
