import { describe, expect, it } from "vitest";
import { airFromReading } from "@/lib/domain/air/weather";
import { Refusal } from "@/lib/domain/refusal";
import { cvSlide } from "@/lib/domain/tuning/airSide";
import { machineFrom } from "@/lib/domain/tuning/machine";
import { holdingPressurePa } from "@/lib/domain/tuning/slide";
import { exactValue, jetBounds } from "@/lib/domain/tuning/solve";
import { StandIns, usualNeedle } from "@/lib/domain/tuning/standIns";
import { resolve } from "@/lib/domain/tuning/station";
import { listSettings } from "@/lib/domain/tuning/targetList";
import { insistOnMeasurement, targetSettings } from "@/lib/domain/tuning/targetSheet";
import type {
  CarburettorTarget,
  ModelCardFacts,
  SettingValues,
  TargetInput,
} from "@/lib/domain/tuning/targetTypes";
import { tradeWarnings } from "@/lib/domain/tuning/tradeRules";
import { AS_FOUND, DROVER, mainJets, OPENED, PLAIN_AIR } from "./tuning-demo";

const known = <T>(value: T) => ({ value, how: "read" as const });
const assumed = <T>(value: T) => ({ value, how: "assumed" as const });
const settings: SettingValues = Object.fromEntries(
  Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]),
);

describe("what stands in for a missing fact", () => {
  it("is noted once each and widens the band by the root of the squares", () => {
    const s = new StandIns();
    expect(s.number(known(5), "A", () => 1, 0.3, [0, 10, "mm"])).toBe(5);
    expect(s.widen).toBe(0);
    expect(s.number(undefined, "B", () => 2.345, 0.3, [0, 10, "mm"])).toBe(2.345);
    expect(s.number(assumed(4), "C", () => 1, 0.4, [0, 10, ""])).toBe(4);
    expect(s.choice(undefined, "D", () => "cv", 0)).toBe("cv");
    s.note("E");
    expect(s.widen).toBeCloseTo(0.5, 12);
    expect(s.assumptions.map((a) => a.fact)).toEqual(["B: 2.35 mm", "C: 4", "D: cv", "E"]);
    expect(() => s.number(known(11), "F", () => 1, 0.1, [0, 10, "mm"])).toThrow(
      "F is 11 mm, outside 0 to 10 mm.",
    );
  });

  // Down 1200 Pa and fully up 2200 Pa (judgement), by statics: (k (L0 - Li + x) + m g) / A.
  it("makes a slide that holds 1200 Pa down and 2200 Pa fully up, whatever its bore", () => {
    for (const boreMm of [28, 34, 38, 42]) {
      const m = machineFrom({ boreMm: known(boreMm), carburettorType: known("cv" as const) }, 1, {
        springLengthMm: 106,
      });
      const slide = cvSlide(m, { springLengthMm: 106 });
      expect(holdingPressurePa(slide, 0)).toBeCloseTo(1200, 3);
      expect(holdingPressurePa(slide, boreMm / 1000)).toBeCloseTo(2200, 3);
      // 1.7 bores of diaphragm; no slide over 40 g is assumed.
      expect(Math.sqrt((4 * m.diaphragmM2) / Math.PI)).toBeCloseTo(1.7 * m.boreM, 9);
      expect(m.slideMassKg).toBeLessThanOrEqual(0.04);
    }
  });

  it("is of usual proportions: bore by displacement, jets by bore, needle by needle jet", () => {
    const m = machineFrom({ displacementCc: known(400) }, 1, {});
    expect(m.boreM).toBeCloseTo(0.03, 9);
    expect(machineFrom({ displacementCc: known(800) }, 2, {}).boreM).toBeCloseTo(0.03, 9);
    // The slide of a small carburettor is lighter: half of what holds it down is its mass (judgement).
    const small = machineFrom({ boreMm: known(14) }, 1, {});
    expect((small.slideMassKg * 9.80665) / small.diaphragmM2).toBeCloseTo(600, 6);
    expect(m.mainJet).toBeCloseTo(109.5, 9);
    expect(m.pilotJet).toBeCloseTo(36, 9);
    expect(m.needleJetMm).toBeCloseTo((2.6 * 109.5) / 140, 9);
    expect(m.sweptM3).toBeCloseTo(400e-6, 12);
    expect(m.ratedRpm).toBe(6500);
    expect(m.headerMm).toBe(38);
    expect(m.snorkelHoleMm).toBeCloseTo(1.25 * m.snorkelMm, 9);
    // 25 m/s in the snorkel at rated speed on the mean flow (judgement).
    const flow = ((400e-6 * 6500) / 120) * 0.85;
    expect(flow / ((Math.PI / 4) * (m.snorkelMm / 1000) ** 2)).toBeCloseTo(25, 6);
    expect(m).toMatchObject({ type: "cv", convention: "bore", fuel: "E10", ventedTo: "unknown" });
    const byNeedle = machineFrom({ needle: known({ ...usualNeedle(2.6, 37), straightMm: 2.4 }) }, 1, {});
    expect(byNeedle.needleJetMm).toBeCloseTo(2.4 * 1.04, 9);
    const flowJets = machineFrom({ jetConvention: known("flow" as const) }, 1, { mainJet: 196 });
    expect(flowJets.needleJetMm).toBeCloseTo(2.6, 9);
    expect(machineFrom({ cylinders: known(4) }, 2, {}).cylindersPerCarburettor).toBe(2);
    expect(machineFrom({}, 2, {}).cylindersPerCarburettor).toBe(1);
    expect(() => machineFrom({}, 5, {})).toThrow("carburettors is 5");
    expect(() => machineFrom({ boreMm: known(70) }, 1, {})).toThrow("Bore is 70 mm");
  });

  it("is told fact by fact, and nothing where all is read", () => {
    const told = (card: ModelCardFacts) =>
      machineFrom(card, 1, settings).assumptions.map((a) => a.fact.split(":")[0]);
    expect(told(DROVER)).toEqual([]);
    expect(machineFrom(DROVER, 1, settings).widen).toBe(0);
    expect(told({})).toEqual(
      expect.arrayContaining([
        "Displacement",
        "Cylinders",
        "Rated speed",
        "Carburettor type",
        "Bore",
        "Jet numbering",
        "Needle jet",
        "Needle",
        "Snorkel",
        "Hole without snorkel",
        "Header pipe",
        "Fuel",
        "Where the bowl is vented",
        "Diaphragm",
        "Slide mass",
        "Slide spring rate",
        "Spring length, slide down",
      ]),
    );
    expect(told({ ...DROVER, ventedTo: known("unknown" as const) })).toEqual(["Where the bowl is vented"]);
    const { needle: _, ...bare } = DROVER;
    expect(machineFrom(bare, 1, settings).assumptions.map((a) => a.fact)).toEqual([
      "Needle: of usual proportions",
    ]);
    // A mechanical slide has no diaphragm, mass or spring to assume.
    expect(told({ carburettorType: known("mechanical" as const) })).not.toContain("Diaphragm");
  });

  it("leaves out an inner spring unless rate and length are both known", () => {
    const inner = (facts: ModelCardFacts) => machineFrom({ ...DROVER, ...facts }, 1, settings).innerSpring;
    expect(inner({ innerSpringRateNPerM: known(50), innerSpringFreeMm: known(60) })).toEqual({
      rateNPerM: 50,
      freeM: 0.06,
    });
    expect(inner({ innerSpringRateNPerM: known(50) })).toBeUndefined();
    expect(inner({ innerSpringFreeMm: known(60) })).toBeUndefined();
    expect(() => inner({ innerSpringRateNPerM: known(0.5), innerSpringFreeMm: known(60) })).toThrow(
      "inner spring rate is 0.5 N/m",
    );
    expect(() => inner({ innerSpringRateNPerM: known(50), innerSpringFreeMm: known(400) })).toThrow(
      "inner spring free length is 400 mm",
    );
  });

  it("takes the spring of card and sheet: place known only where it was not assumed, cut from the delivered one", () => {
    const m = machineFrom(DROVER, 1, settings);
    expect(m.spring).toMatchObject({ rateNPerM: 110, freeM: 0.118 });
    expect(m.springPlaceKnown).toBe(true);
    expect(machineFrom({ ...DROVER, springInstalledMm: assumed(84) }, 1, settings).springPlaceKnown).toBe(
      false,
    );
    const { springInstalledMm: _, ...nowhere } = DROVER;
    expect(machineFrom(nowhere, 1, settings).springPlaceKnown).toBe(false);
    const cut = machineFrom(DROVER, 1, { ...settings, springLengthMm: 106.2 });
    expect(cut.spring.rateNPerM).toBeCloseTo(110 / 0.9, 9);
    expect(cut.spring.freeM).toBeCloseTo(0.1062, 9);
    expect(() => machineFrom({ ...DROVER, springFreeMm: known(300) }, 1, settings)).toThrow(
      "free length is 300 mm",
    );
    const short = { ...settings, springLengthMm: 80 };
    expect(() => cvSlide(m, short)).toThrow("shorter than its place of 84.0 mm");
    expect(
      cvSlide(machineFrom({ ...DROVER, springInstalledMm: assumed(84) }, 1, settings), short).freeM,
    ).toBeCloseTo(0.08, 9);
  });

  it("has a groove for whatever clip a sheet names, a taper over 1.2 bores", () => {
    const needle = usualNeedle(2.6, 40, 6);
    expect(needle).toMatchObject({
      straightMm: 2.5,
      straightLiftMm: 6.4,
      clipAt: 3,
      clipStepMm: 1,
      clips: 6,
    });
    expect(usualNeedle(2.6, 40).clips).toBe(5);
    expect(needle.tapers[0]?.lengthMm).toBe(48);
    // 0.375 mm of radius over 0.63 of the bore.
    expect(Math.tan(((needle.tapers[0]?.includedAngleDeg ?? 0) * Math.PI) / 360)).toBeCloseTo(
      0.375 / 25.2,
      12,
    );
    expect(usualNeedle(1.3, 40).straightMm).toBe(1.25);
  });
});

describe("solving", () => {
  it("finds where richness is right between two sizes, and says when it lies outside them", () => {
    const error = (size: number) => Math.log(size / 123.4);
    expect(exactValue("mainJet", error, 100, 200)).toBeCloseTo(123.4, 5);
    expect(exactValue("mainJet", error, 123.4, 200)).toBeCloseTo(123.4, 5);
    expect(exactValue("mainJet", error, 100, 123.4)).toBeCloseTo(123.4, 5);
    expect(() => exactValue("mainJet", error, 130, 200)).toThrow(
      /^richness with the least mainJet \(log\) is 0\.05\d+, outside -9 to 0\.$/,
    );
    expect(() => exactValue("mainJet", error, 100, 120)).toThrow(
      /^richness with the greatest mainJet \(log\) is -0\.02\d+, outside 0 to 9\.$/,
    );
  });

  it("looks between 0.3 and twice a jet's area, in its own numbering", () => {
    const bounds = (jetConvention: "bore" | "flow") => {
      const card = { ...DROVER, jetConvention: known(jetConvention) };
      const r = resolve(
        { card, carburettors: 1, settings, reference: { settings, air: PLAIN_AIR } },
        PLAIN_AIR,
      );
      return jetBounds(r, 140);
    };
    expect(bounds("bore")[0]).toBeCloseTo(140 * Math.sqrt(0.3), 6);
    expect(bounds("bore")[1]).toBeCloseTo(140 * Math.SQRT2, 6);
    expect(bounds("flow")[0]).toBeCloseTo(42, 6);
    expect(bounds("flow")[1]).toBeCloseTo(280, 6);
  });
});

describe("rules of the trade (common practice, no source)", () => {
  const target = (
    before: SettingValues,
    after: SettingValues,
    more: { main?: { phiError: number }; explicit?: boolean; slimMm?: number } = {},
  ) =>
    ({
      before: { settings: before },
      after: {
        settings: after,
        card: DROVER,
        ...(more.slimMm && DROVER.needle
          ? { needle: known({ ...DROVER.needle.value, straightMm: 2.5 - more.slimMm }) }
          : {}),
      },
      settings: more.explicit ? [{ key: "mainJet", because: [{ fact: "", from: "package" }] }] : [],
      mainJet: more.main
        ? { chosen: { size: 140, phiError: more.main.phiError }, best: { size: 142.5 } }
        : null,
    }) as unknown as CarburettorTarget;
  const input = (more: Partial<TargetInput> = {}): TargetInput => ({ ...OPENED, changes: [], ...more });
  const rules = (...args: Parameters<typeof tradeWarnings>) => tradeWarnings(...args).map((w) => w.rule);
  const was: SettingValues = { mainJet: 140, airboxOpeningMm: 0, snorkelFitted: 1, headerWeldMm: 3 };
  const bySetting = input({ changes: [{ setting: "mainJet", change: "set", value: 150 }] });

  it("join a bigger main set by hand with a freer airbox, and the other way round", () => {
    expect(rules(bySetting, target(was, { ...was, mainJet: 150 }))).toEqual(["main without airbox"]);
    expect(rules(input(), target(was, { ...was, mainJet: 150 }))).toEqual([]);
    const computed = input({ changes: [{ setting: "mainJet", change: "computed" }] });
    expect(rules(computed, target(was, { ...was, mainJet: 150 }))).toEqual([]);
    const clip = input({ changes: [{ setting: "clipPosition", change: "set", value: 4 }] });
    expect(rules(clip, target(was, { ...was, mainJet: 150 }))).toEqual([]);
    expect(rules(bySetting, target(was, { ...was, mainJet: 150, snorkelFitted: 0 }))).toEqual(["idle speed"]);
    expect(rules(input(), target(was, { ...was, snorkelFitted: 0 }))).toEqual([
      "airbox without main",
      "idle speed",
    ]);
    expect(rules(input(), target({}, { snorkelFitted: 0, mainJet: 150 }))).toContain("airbox without main");
    expect(rules(input(), target(was, was))).toEqual([]);
  });

  it("say where not to cut, what a tapered needle wants, and what weld to leave", () => {
    const cut = { ...was, airboxOpeningMm: 40, mainJet: 150 };
    expect(rules(input(), target(was, cut))).toEqual(["opening place", "idle speed"]);
    // An opening that was there is no new one, and a smaller one is none.
    const opened = { ...was, airboxOpeningMm: 40 };
    expect(rules(input(), target(opened, opened))).toEqual([]);
    expect(rules(input(), target(opened, { ...opened, airboxOpeningMm: 30 }))).toEqual([]);
    const slim = { slimMm: 0.05 };
    const small = { ...cut, mainJet: 140 };
    expect(rules(input(), target(was, cut, slim))).not.toContain("needle with cut opening");
    expect(rules(input(), target(was, small, slim))).toContain("needle with cut opening");
    expect(rules(input(), target(was, small, slim))).not.toContain("airbox without main");
    expect(rules(input(), target(was, small))).not.toContain("needle with cut opening");
    expect(rules(input(), target(was, small, { slimMm: -0.02 }))).toContain("airbox without main");
    expect(rules(input(), target(was, was, slim))).toEqual([]);
    const thin = tradeWarnings(input(), target({ headerWeldMm: 0.5 }, { headerWeldMm: 0.5 }));
    expect(thin.map((w) => [w.rule, w.message, w.source])).toEqual([
      ["header weld", "0.5 mm of header weld would stay.", "common practice"],
    ]);
    expect(rules(input(), target({ headerWeldMm: 1 }, { headerWeldMm: 1 }))).toEqual([]);
    expect(rules(input(), target({}, {}))).toEqual([]);
  });

  it("call a slide too quick from 3.5 times hole area and spring rate together", () => {
    const holes = (count: number, holeMm: number, springCoils = 20): SettingValues => ({
      liftHoleCount: count,
      liftHoleMm: holeMm,
      springCoils,
    });
    const quick = (to: SettingValues, from = holes(1, 2)) => rules(input(), target(from, to));
    expect(quick(holes(3, 2))).toEqual([]);
    expect(quick(holes(4, 2))).toEqual(["slide too quick"]);
    // Three holes for one, and a spring 1.18 times as stiff: 3.53.
    expect(quick(holes(3, 2, 17))).toEqual(["slide too quick"]);
    expect(quick(holes(3, 2, 18))).toEqual([]);
    expect(quick({ liftHoleCount: 4, springCoils: 20 })).toEqual([]);
    expect(quick(holes(4, 2), { springCoils: 20 })).toEqual([]);
    expect(quick(holes(4, 2), { liftHoleCount: 1, springCoils: 20 })).toEqual([]);
    expect(quick(holes(4, 2), { liftHoleMm: 2, springCoils: 20 })).toEqual([]);
    const [said] = tradeWarnings(input(), target(holes(1, 2), holes(4, 2, 18)));
    expect(said?.message).toMatch(/^Lift holes x 4\.00 in area with a spring x 1\.11 in rate/);
  });

  it("warn of a main that a package sets leaner than one size, and of one more than 3 % lean", () => {
    const leaner = (mainJet: number, explicit = true) =>
      rules(input(), target(was, { ...was, mainJet }, { explicit }));
    expect(leaner(137.5)).toEqual([]);
    expect(leaner(135)).toEqual(["leaner by hand"]);
    expect(leaner(135, false)).toEqual([]);
    expect(
      tradeWarnings(input(), target(was, { ...was, mainJet: 132.5 }, { explicit: true }))[0]?.message,
    ).toBe("The package sets a main jet 3 half sizes leaner.");
    const by = (key: string, ...from: string[]) =>
      tradeWarnings(input(), {
        ...target(was, { ...was, mainJet: 135 }),
        settings: [{ key, because: from.map((one) => ({ fact: "", from: one })) }],
      } as unknown as CarburettorTarget).map((w) => [w.rule, w.source]);
    expect(by("mainJet", "stock", "package")).toEqual([["leaner by hand", "judgement"]]);
    expect(by("mainJet", "fuel model")).toEqual([]);
    expect(by("clipPosition", "package")).toEqual([]);
    const lean = (phiError: number) => tradeWarnings(input(), target(was, was, { main: { phiError } }));
    expect(lean(-0.029)).toEqual([]);
    expect(lean(-0.031)).toEqual([
      {
        rule: "lean jet",
        message: "Main jet 140 is 3.1 % lean of target.",
        remedy: "142.5 is the best that can be had.",
        source: "fuel model",
      },
    ]);
  });
});

describe("a sheet's list", () => {
  const found = {
    mainJet: known(140),
    clipPosition: known(3),
    idleSpeedRpm: known(1300),
    floatHeightMm: known(14),
  };
  const list = (
    values: SettingValues,
    computed: readonly ("clipPosition" | "idleSpeedRpm" | "mixtureScrewTurns" | "slideCutawayMm")[] = [],
    because: Parameters<typeof listSettings>[3] = {},
  ) =>
    listSettings(found, values, new Set(computed), because, { mainJet: null, pilotJet: null, screw: null });
  const plain = { mainJet: 140, clipPosition: 3, idleSpeedRpm: 1300, floatHeightMm: 14 };

  it("stands in the sheet's order, as found where nothing changed", () => {
    expect(list(plain).map((s) => [s.key, s.value, s.from, s.how, s.firmness])).toEqual([
      ["mainJet", 140, 140, "read", "firm"],
      ["clipPosition", 3, 3, "read", "firm"],
      ["floatHeightMm", 14, 14, "read", "firm"],
      ["idleSpeedRpm", 1300, 1300, "read", "firm"],
    ]);
    expect(list(plain)[0]?.because).toEqual([{ fact: "As found", from: "read" }]);
  });

  it("is a starting point where nobody looked", () => {
    const found = { mainJet: { value: 140, how: "assumed" as const } };
    const none = { mainJet: null, pilotJet: null, screw: null };
    const [jet] = listSettings(found, { mainJet: 140 }, new Set(), {}, none);
    expect(jet).toMatchObject({ how: "assumed", firmness: "starting point", from: 140 });
  });

  it("says of a computed clip which way the needle goes, and of the idle what it was", () => {
    const clip = (clipPosition: number) => list({ ...plain, clipPosition }, ["clipPosition"])[1];
    expect(clip(4)?.because[0]).toMatchObject({
      fact: "Half throttle is nearest target here",
      effect: "needle up",
    });
    expect(clip(2)?.because[0]?.effect).toBe("needle down");
    expect(clip(3)).toMatchObject({ how: "computed", firmness: "starting point" });
    expect(clip(3)?.because[0]).toMatchObject({ fact: "Half throttle stays on target", effect: "clip 3" });
    const idle = list(plain, ["idleSpeedRpm"]).find((s) => s.key === "idleSpeedRpm");
    expect(idle?.because[0]?.effect).toBe("1300 rpm as found");
    const unknown = listSettings(
      {},
      { idleSpeedRpm: 1300, clipPosition: 3 },
      new Set(["idleSpeedRpm", "clipPosition"] as const),
      {},
      {
        mainJet: null,
        pilotJet: null,
        screw: null,
      },
    );
    expect(unknown.map((s) => s.because[0]?.effect)).toEqual(["clip 3", ""]);
  });

  it("gives what a package changed its reason, and what followed from it the package", () => {
    const why = [{ fact: "Set to 15", from: "package" }];
    const changed = list({ ...plain, floatHeightMm: 15 }, [], { floatHeightMm: why });
    expect(changed.find((s) => s.key === "floatHeightMm")).toMatchObject({
      because: why,
      how: "computed",
      from: 14,
    });
    const followed = list({ ...plain, springLengthMm: 98 }).find((s) => s.key === "springLengthMm");
    expect(followed).toMatchObject({
      from: null,
      how: "computed",
      because: [{ fact: "Follows from the package", from: "package" }],
    });
    expect(list(plain, ["mixtureScrewTurns"]).map((s) => s.key)).not.toContain("mixtureScrewTurns");
    const cut = list({ ...plain, slideCutawayMm: 2.5 }, ["slideCutawayMm"]).find(
      (s) => s.key === "slideCutawayMm",
    );
    expect(cut).toMatchObject({
      how: "computed",
      because: [{ fact: "Follows from the package", from: "package" }],
    });
  });
});

describe("a target sheet as a whole", () => {
  const plain: TargetInput = { ...OPENED, changes: [{ setting: "mainJet", change: "computed" }] };
  const thin = airFromReading({ stationPa: 85_000, temperatureC: 20, humidity: 0.4 });

  it("says how dense the air is against the baseline and against 20 C dry 1013.25 hPa, firm where both were measured", () => {
    const { relativeDensity } = targetSettings({ ...plain, now: thin });
    expect(relativeDensity.toBaseline.value).toBeCloseTo(thin.dryDensityKgM3 / PLAIN_AIR.dryDensityKgM3, 12);
    expect(relativeDensity.toBaseline.firmness).toBe("firm");
    expect(relativeDensity.toStandard.value).toBeCloseTo(thin.dryDensityKgM3 / 1.2041, 3);
    expect(relativeDensity.toBaseline.because.at(-1)).toMatchObject({
      fact: "Against the air the settings were right for",
      effect: `${(100 * relativeDensity.toBaseline.value).toFixed(1)} %`,
    });
    const guess = targetSettings({ ...plain, now: { ...thin, assumed: true } });
    expect(guess.relativeDensity.toBaseline.firmness).toBe("starting point");
    expect(guess.warnings.map((w) => w.rule)).toContain("assumed air");
    const base = targetSettings({ ...plain, baseline: { ...PLAIN_AIR, assumed: true } });
    expect(base.relativeDensity.toBaseline.firmness).toBe("starting point");
    expect(base.warnings.filter((w) => w.rule === "assumed air")).toHaveLength(1);
    expect(targetSettings(plain).warnings.map((w) => w.rule)).not.toContain("assumed air");
  });

  it("says each warning once, however many carburettors share it", () => {
    const two = [
      { name: "left", settings: AS_FOUND },
      { name: "right", settings: { ...AS_FOUND, clipPosition: known(2) } },
    ];
    const sheet = targetSettings({ ...OPENED, carburettors: two });
    const said = sheet.warnings.map((w) => w.rule + w.message);
    expect(new Set(said).size).toBe(said.length);
    expect(sheet.carburettors.map((c) => c.name)).toEqual(["left", "right"]);
    expect(() => targetSettings({ ...OPENED, carburettors: [] })).toThrow("carburettors is 0");
    expect(() => targetSettings({ ...OPENED, carburettors: new Array(5).fill(two[0]) })).toThrow(
      "carburettors is 5",
    );
  });

  it("holds back a leaner jet for each carburettor by name, and insists on the measurement where asked to", () => {
    const high = airFromReading({ stationPa: 70_000, temperatureC: 20, humidity: 0.4 });
    const two = ["left", "right"].map((name) => ({ name, settings: AS_FOUND }));
    const sheet = targetSettings({
      ...plain,
      carburettors: two,
      now: high,
      jets: mainJets([110, 115, 120, 122.5, 125, 127.5, 130, 135, 140], 4),
    });
    expect(sheet.refusals.map((r) => r.carburettor)).toEqual(["left", "right"]);
    expect(() => insistOnMeasurement(sheet)).toThrow(Refusal);
    expect(() => insistOnMeasurement(sheet)).toThrow(sheet.refusals[0]?.message ?? "");
    const calm = targetSettings(plain);
    expect(insistOnMeasurement(calm)).toBe(calm);
  });

  it("starts the screw where it was found or delivered, a quarter turn further out with freer breathing, within half a turn", () => {
    const screw = (
      changes: TargetInput["changes"],
      found: TargetInput["carburettors"][0]["settings"] = AS_FOUND,
      card = DROVER,
    ) =>
      targetSettings({ ...OPENED, card, carburettors: [{ name: "", settings: found }], changes })
        .carburettors[0]?.screwStart;
    expect(screw([])).toMatchObject({ value: 1.75, from: 1.75 });
    expect(screw([])?.because[0]).toMatchObject({ fact: "Stood at 1.75 turns out", from: "as found" });
    const freer = screw([{ setting: "snorkelFitted", change: "set", value: 0 }]);
    expect(freer?.because.map((r) => r.fact)).toContain("Freer breathing");
    expect(freer?.value ?? 0).toBeGreaterThan(1.75);
    expect(freer?.value ?? 9).toBeLessThanOrEqual(2.25);
    const { mixtureScrewTurns: _, ...unsaid } = AS_FOUND;
    expect(screw([], unsaid)?.because[0]?.from).toBe("model card");
    const { deliveredScrewTurns: __, ...bare } = DROVER;
    expect(screw([], unsaid, bare)).toBeNull();
    // A pilot jet three steps smaller asks for more than half a turn.
    const small = screw([{ setting: "pilotJet", change: "set", value: 37.5 }]);
    expect(small?.value).toBe(2.25);
    const big = screw([{ setting: "pilotJet", change: "set", value: 70 }]);
    expect(big?.value).toBe(1.25);
  });
});
