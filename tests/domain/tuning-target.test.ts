import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { typicalWeather } from "@/lib/domain/air/typical";
import { airFromReading } from "@/lib/domain/air/weather";
import { OutOfRange, Refusal } from "@/lib/domain/refusal";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { insistOnMeasurement, targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { CarburettorTarget, TargetInput, TargetSheet } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, mainJets, OPENED, PLAIN_AIR } from "./tuning-demo";

const only = (sheet: TargetSheet): CarburettorTarget => {
  const [first] = sheet.carburettors;
  if (!first) throw new Error("no carburettor");
  return first;
};
const setting = (c: CarburettorTarget, key: string) => c.settings.find((s) => s.key === key);
const rules = (sheet: TargetSheet) => sheet.warnings.map((w) => w.rule);
const known = (value: number) => ({ value, how: "read" as const });
const with_ = (changes: Partial<TargetInput>): TargetInput => ({ ...OPENED, ...changes });
const hill = (altitudeM: number) =>
  airFromReading({ qnhPa: 101_325, altitudeM, temperatureC: 15, humidity: 0.4 });

describe("target settings of a freer single", () => {
  it("asks for about 5 % more main for a 51 mm opening with the bowl vented outside (common practice, no source)", () => {
    const main = only(targetSettings(OPENED)).mainJet;
    expect((main?.exact ?? 0) / 140).toBeGreaterThan(1.03);
    expect((main?.exact ?? 0) / 140).toBeLessThan(1.07);
    expect([145, 147.5]).toContain(main?.chosen.size);
    expect(main?.inDrawer).toBe(true);
  });
  it("asks for hardly any more when the bowl is vented to the airbox, and shows both when unknown", () => {
    const vent = (value: "airbox" | "unknown") =>
      only(targetSettings(with_({ card: { ...DROVER, ventedTo: { value, how: "read" } } })));
    const boxed = vent("airbox").mainJet?.exact ?? 0;
    expect(boxed / 140).toBeLessThan(1.03);
    const unknown = vent("unknown");
    expect(unknown.mainJet?.exact ?? 0).toBeGreaterThan(boxed);
    const curve = fuelCurve(unknown.before, PLAIN_AIR, 20);
    expect(curve.ventCases.map((c) => c.ventedTo)).toEqual(["atmosphere", "airbox"]);
    expect(curve.ventCases[0]?.lambda).toHaveLength(20);
  });
  it("starts the screw a quarter turn further out and says to set the idle down (common practice, no source)", () => {
    const sheet = targetSettings(OPENED);
    expect(only(sheet).screwStart?.value).toBe(2);
    expect(setting(only(sheet), "idleSpeedRpm")?.value).toBe(1400);
    expect(rules(sheet)).toContain("idle speed");
    expect(rules(sheet)).toContain("opening place");
    expect(rules(sheet)).not.toContain("airbox without main");
  });
  it("keeps what the package leaves alone, as it was read, and explains all that it computes", () => {
    const c = only(targetSettings(OPENED));
    expect(setting(c, "pilotJet")).toMatchObject({ value: 45, how: "read", firmness: "firm" });
    expect(setting(c, "airboxOpeningMm")).toMatchObject({ value: 47, from: 0, how: "computed" });
    for (const s of c.settings) expect(s.because.length).toBeGreaterThan(0);
    expect(setting(c, "mainJet")?.firmness).toBe("starting point");
    expect(setting(c, "mainJet")?.because.at(-1)?.fact).toContain("verify by plug, lambda and test ride");
  });
  it("changes nothing when nothing changed", () => {
    const c = only(targetSettings(with_({ changes: OPENED.changes.slice(1) })));
    expect(c.mainJet?.exact).toBeCloseTo(140, 3);
    expect(c.mainJet?.chosen.size).toBe(140);
    expect(c.mainJet?.note).toBe("The fitted jet stays.");
    expect(setting(c, "clipPosition")?.value).toBe(3);
    expect(c.screwStart?.value).toBe(1.75);
  });
  it("reports slide rise and spring rate: two 3.0 mm holes for one of 2.5 is x 0.347, 112 to 100 mm is x 1.12 (common practice)", () => {
    const sheet = targetSettings(
      with_({
        card: { ...DROVER, springFreeMm: known(112), springInstalledMm: known(80) },
        carburettors: [
          { name: "c", settings: { ...AS_FOUND, liftHoleMm: known(2.5), springLengthMm: known(112) } },
        ],
        changes: [
          { setting: "liftHoleCount", change: "set", value: 2 },
          { setting: "liftHoleMm", change: "add", value: 0.5 },
          { setting: "springLengthMm", change: "set", value: 100 },
        ],
      }),
    );
    expect(only(sheet).slideRise?.value).toBeCloseTo(0.3472, 4);
    expect(only(sheet).springRate?.value).toBeCloseTo(1.12, 10);
    expect(only(sheet).springRate?.firmness).toBe("firm");
  });
});

describe("jets that exist", () => {
  const jetsOnly = (sizes: readonly number[], free: number, orderable: boolean) =>
    only(targetSettings(with_({ jets: mainJets(sizes, free, orderable) }))).mainJet;
  it("orders the right size when the drawer has only far ones, and names the nearest there", () => {
    const jets = [...mainJets([130, 132.5], 4, false), ...mainJets([145, 147.5, 150], 0, true)];
    const main = only(targetSettings(with_({ jets }))).mainJet;
    expect(main?.chosen.orderable).toBe(true);
    expect(main?.inDrawer).toBe(false);
    expect(main?.note).toMatch(/^Not in the drawer: order 14[57]/);
    expect(main?.nearestInDrawer?.size).toBe(132.5);
    expect(main?.runnerUp).not.toBeNull();
  });
  it("takes a drawer jet that loses little against the best, and the best when the drawer's loses more", () => {
    const near = only(
      targetSettings(with_({ jets: [...mainJets([147], 1, false), ...mainJets([146], 0, true)] })),
    ).mainJet;
    expect(near?.best.size).toBe(146);
    expect(near?.chosen.size).toBe(147);
    const far = only(
      targetSettings(with_({ jets: [...mainJets([155], 1, false), ...mainJets([145], 0, true)] })),
    ).mainJet;
    expect(far?.chosen.size).toBe(145);
    expect(far?.nearestInDrawer?.size).toBe(155);
    expect(jetsOnly([147.5], 2, false)?.inDrawer).toBe(true);
  });
  it("says so when a size is nowhere listed", () => {
    const main = only(targetSettings(with_({ jets: [] }))).mainJet;
    expect(main?.inDrawer).toBe(false);
    expect(main?.note).toMatch(/^No 14[57](\.5)? is listed in stock or to order\.$/);
  });
  it("gives two carburettors found alike the same jet, from the drawer only when it holds two", () => {
    const card = {
      ...DROVER,
      displacementCc: { value: 1300, how: "read" as const },
      cylinders: { value: 2, how: "read" as const },
      snorkelMm: { value: 55, how: "read" as const },
    };
    const two = ["left", "right"].map((name) => ({ name, settings: AS_FOUND }));
    const fits = (jets: TargetInput["jets"]) => {
      const sheet = targetSettings(with_({ card, carburettors: two, jets }));
      expect(sheet.carburettors.map((c) => c.name)).toEqual(["left", "right"]);
      const [left, right] = sheet.carburettors.map((c) => c.mainJet);
      expect(left?.chosen).toEqual(right?.chosen);
      return left;
    };
    const one = fits(mainJets([145], 1, true));
    expect(one?.inDrawer).toBe(false);
    expect(one?.note).toBe("Only 1 of 2 in the drawer: order 145.");
    expect(fits(mainJets([145], 2, true))?.inDrawer).toBe(true);
  });
  it("leaves for the second carburettor only what the first did not take, when they were found unlike", () => {
    const other = { ...AS_FOUND, idleSpeedRpm: { value: 1350, how: "read" as const } };
    const carburettors = [
      { name: "left", settings: AS_FOUND },
      { name: "right", settings: other },
    ];
    const sheet = targetSettings(with_({ carburettors, jets: mainJets([147.5], 1, true) }));
    expect(sheet.carburettors.map((c) => c.mainJet?.chosen.free)).toEqual([1, 0]);
    expect(sheet.carburettors.map((c) => c.mainJet?.inDrawer)).toEqual([true, false]);
  });
  it("reports a jet that the package sets as it stands: what the drawer holds, and what would be best", () => {
    const set = OPENED.changes.map((c) =>
      c.setting === "mainJet" ? { ...c, change: "set" as const, value: 155 } : c,
    );
    const main = only(targetSettings(with_({ changes: set }))).mainJet;
    expect(main?.chosen).toMatchObject({ size: 155, free: 1 });
    expect(main?.best.size).toBe(145);
    expect(main?.inDrawer).toBe(true);
    const kept = targetSettings(with_({ changes: OPENED.changes.filter((c) => c.setting !== "mainJet") }));
    expect(only(kept).mainJet?.chosen.size).toBe(140);
    expect(rules(kept)).toContain("lean jet");
  });
  it("compares across numberings only as approximate", () => {
    const jets: TargetInput["jets"] = [
      { setting: "mainJet", convention: "flow", size: 214, free: 2, orderable: false },
    ];
    const main = only(targetSettings(with_({ jets }))).mainJet;
    expect(main?.convention).toBe("flow");
    expect(main?.note).toContain("approximate");
  });
});

describe("never leaner without a measurement than one step, or than air density alone asks", () => {
  const up = with_({
    now: hill(3000),
    baseline: hill(0),
    changes: [{ setting: "mainJet", change: "computed" }],
    jets: mainJets([125, 127.5, 130, 132.5, 135, 137.5, 140]),
  });
  it("holds the jet where air density alone puts it and says what to measure", () => {
    const sheet = targetSettings(up);
    const [held] = sheet.refusals;
    // By the square-root law 140 x (0.7423)^(1/4) = 129.9, with QNH 1013.25 and 15 C at both places a little less.
    expect(only(sheet).mainJet?.exact).toBeLessThan(128);
    expect(only(sheet).mainJet?.chosen.size).toBe(130);
    expect(setting(only(sheet), "mainJet")?.value).toBe(130);
    expect(held).toMatchObject({ setting: "mainJet", allowed: 130 });
    expect(held?.wanted).toBeLessThan(128);
    expect(held?.remedy).toContain("measure lambda at full load");
    expect(() => insistOnMeasurement(sheet)).toThrow(Refusal);
  });
  it("goes the whole way once the main region was measured", () => {
    const sheet = targetSettings({
      ...up,
      calibration: [{ region: "main", value: 0, sigma: 0.01, samples: 12, measured: true }],
    });
    expect(sheet.refusals).toEqual([]);
    expect(insistOnMeasurement(sheet)).toBe(sheet);
    expect(only(sheet).mainJet?.chosen.size).toBeLessThan(130);
  });
  it("warns of a leaner main that the package sets by hand", () => {
    const sheet = targetSettings(with_({ changes: [{ setting: "mainJet", change: "set", value: 130 }] }));
    expect(rules(sheet)).toContain("leaner by hand");
  });
});

describe("rules of the trade (common practice, no source)", () => {
  const changed = (changes: TargetInput["changes"], more: Partial<TargetInput> = {}) =>
    rules(targetSettings(with_({ changes, ...more })));
  it("warns of a bigger main without a freer airbox, and of a freer airbox without a bigger main", () => {
    expect(changed([{ setting: "mainJet", change: "set", value: 150 }])).toContain("main without airbox");
    expect(changed([{ setting: "snorkelFitted", change: "set", value: 0 }])).toContain("airbox without main");
    expect(
      changed([
        { setting: "mainJet", change: "set", value: 150 },
        { setting: "airboxOpeningMm", change: "set", value: 51 },
      ]),
    ).not.toContain("main without airbox");
  });
  it("wants only the snorkel out for a tapered needle with the delivered main", () => {
    const newNeedle = {
      value: {
        straightMm: 2.5,
        straightLiftMm: 5,
        clipAt: 2,
        clipStepMm: 1,
        clips: 5,
        tapers: [{ lengthMm: 40, includedAngleDeg: 1.9 }],
      },
      how: "read" as const,
    };
    expect(changed([{ setting: "airboxOpeningMm", change: "set", value: 51 }], { newNeedle })).toContain(
      "needle with cut opening",
    );
    expect(changed([{ setting: "snorkelFitted", change: "set", value: 0 }], { newNeedle })).not.toContain(
      "needle with cut opening",
    );
  });
  it("warns of too quick a slide and of too little header weld", () => {
    expect(
      changed([
        { setting: "liftHoleCount", change: "set", value: 3 },
        { setting: "liftHoleMm", change: "set", value: 3 },
      ]),
    ).toContain("slide too quick");
    expect(changed([{ setting: "headerWeldMm", change: "set", value: 0.5 }])).toContain("header weld");
    expect(changed([{ setting: "headerWeldMm", change: "set", value: 1 }])).not.toContain("header weld");
  });
});

describe("bad and missing input", () => {
  it("stands in for missing facts with stated assumptions that widen the band", () => {
    const bare = targetSettings(with_({ card: {} }));
    const full = targetSettings(OPENED);
    expect(bare.assumptions.length).toBeGreaterThan(8);
    expect(bare.assumptions.every((a) => a.from.startsWith("assumed"))).toBe(true);
    expect(full.assumptions).toEqual([]);
    const width = (s: TargetSheet) => {
      const p = fuelCurve(only(s).after, PLAIN_AIR, 9).points[8];
      return Math.log((p?.high ?? 0) / (p?.low ?? 1));
    };
    expect(width(bare)).toBeGreaterThan(width(full));
  });
  it("works for a mechanical slide and for nothing known as found", () => {
    const card = { ...DROVER, carburettorType: { value: "mechanical" as const, how: "read" as const } };
    const c = only(targetSettings(with_({ card })));
    expect(c.mainJet?.exact).toBeGreaterThan(140);
    expect(c.slideRise).toBeNull();
    const empty = only(targetSettings(with_({ carburettors: [{ name: "only", settings: {} }] })));
    expect(empty.mainJet).toBeNull();
    const said = targetSettings(with_({ carburettors: [{ name: "only", settings: {} }] })).warnings;
    expect(said.map((w) => w.message)).toContain("Main jet is to be computed, but is not known as found.");
    expect(empty.screwStart?.value).toBe(2);
    const marked = targetSettings(with_({ now: typicalWeather(1, { latitude: -34 }, 410) }));
    expect(rules(marked)).toContain("assumed air");
  });
  it("refuses what cannot be and names quantity, value and range", () => {
    const change = (setting: string, value?: number) => () =>
      targetSettings(
        with_({
          changes: [
            value === undefined ? { setting, change: "computed" } : { setting, change: "set", value },
          ],
        }),
      );
    expect(change("mainJet", 900)).toThrow("Main jet is 900, outside 40 to 300.");
    expect(change("mainJet", Number.NaN)).toThrow(OutOfRange);
    expect(change("chokePlate", 1)).toThrow("chokePlate is not a setting.");
    expect(change("floatHeightMm")).toThrow("Float height cannot be computed.");
    expect(() => targetSettings(with_({ carburettors: [] }))).toThrow(OutOfRange);
    const needle = {
      ...(DROVER.needle ?? { how: "read" as const }),
      value: { straightMm: 2.7, straightLiftMm: 6, clipAt: 3, clipStepMm: 1, clips: 5, tapers: [] },
    };
    expect(() => targetSettings(with_({ card: { ...DROVER, needle } }))).toThrow(/does not pass/);
  });
  it("leaves out an addition to what is not known, and says so", () => {
    const sheet = targetSettings(
      with_({ changes: [{ setting: "floatHeightMm", change: "add", value: 0.5 }] }),
    );
    expect(rules(sheet)).toContain("unknown as found");
  });
});

describe("inverse of forward", () => {
  it("returns the size that the forward model was given, where sizes allow", () => {
    const sizes = [132.5, 135, 137.5, 140, 142.5, 145, 147.5, 150, 152.5, 155];
    fc.assert(
      fc.property(
        fc.constantFrom(...sizes),
        fc.constantFrom("atmosphere", "airbox"),
        fc.integer({ min: -200, max: 2500 }),
        (size, vent, z) => {
          const air = hill(z);
          const card = {
            ...DROVER,
            ventedTo: { value: vent as "atmosphere" | "airbox", how: "read" as const },
          };
          const settings = { ...AS_FOUND, mainJet: { value: size, how: "read" as const } };
          const there = {
            ...OPENED,
            card,
            baseline: air,
            now: air,
            jets: mainJets(sizes),
            changes: OPENED.changes.slice(1),
          };
          const back = only(targetSettings({ ...there, carburettors: [{ name: "x", settings }] }));
          expect(back.mainJet?.exact).toBeCloseTo(size, 3);
          expect(back.mainJet?.chosen.size).toBe(size);
        },
      ),
      { numRuns: 40 },
    );
  });
  it("undoes a change of air and opening: back from the opened setup lies the closed one", () => {
    const air = hill(800);
    const calibration = [{ region: "main" as const, value: 0, sigma: 0.001, samples: 50, measured: true }];
    const out = only(
      targetSettings({
        ...OPENED,
        now: air,
        jets: [],
        changes: [{ setting: "airboxOpeningMm", change: "set", value: 51 }],
        calibration,
      }),
    );
    const size = out.mainJet?.exact ?? 0;
    const opened = {
      ...AS_FOUND,
      mainJet: { value: size, how: "computed" as const },
      airboxOpeningMm: { value: 51, how: "read" as const },
    };
    const back = only(
      targetSettings({
        ...OPENED,
        baseline: air,
        jets: [],
        carburettors: [{ name: "x", settings: opened }],
        changes: [{ setting: "airboxOpeningMm", change: "set", value: 0 }],
        calibration,
      }),
    );
    expect(back.mainJet?.exact).toBeCloseTo(140, 0);
  });
});

describe("fuel curve", () => {
  it("lies on the target for the reference settings in their own air, inside its band", () => {
    const { before } = only(targetSettings(OPENED));
    const curve = fuelCurve(before, PLAIN_AIR, 50);
    expect(curve.points).toHaveLength(50);
    for (const p of curve.points) {
      expect(p.lambda).toBeCloseTo(p.target, 10);
      expect(p.low).toBeLessThan(p.lambda);
      expect(p.high).toBeGreaterThan(p.lambda);
    }
    expect(curve.points[0]?.region).toBe("pilot");
    expect(curve.points[49]?.region).toBe("main");
  });
  it("never gets leaner anywhere with a bigger main or pilot jet", () => {
    const { before } = only(targetSettings(OPENED));
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 200 }),
        fc.double({ min: 0.5, max: 40, noNaN: true }),
        fc.constantFrom("mainJet" as const, "pilotJet" as const),
        (size, more, key) => {
          const at = (value: number) =>
            fuelCurve({ ...before, settings: { ...before.settings, [key]: value } }, PLAIN_AIR, 12).points;
          const bigger = at(size + more);
          at(size).forEach((p, i) => {
            expect(bigger[i]?.lambda ?? 9).toBeLessThanOrEqual(p.lambda + 1e-12);
          });
        },
      ),
      { numRuns: 60 },
    );
  });
  it("gets richer on the hill and leaner in the cold", () => {
    const { before } = only(targetSettings(OPENED));
    const full = (air: Parameters<typeof fuelCurve>[1]) => fuelCurve(before, air, 5).points[4]?.lambda ?? 0;
    expect(full(hill(2000))).toBeLessThan(0.88 * 0.93);
    expect(full(airFromReading({ stationPa: 101_325, temperatureC: -5, humidity: 0.4 }))).toBeGreaterThan(
      0.88,
    );
  });
  it("moves about 1 % at 3 to 6 mm lift and about 11 % at 30 mm for main 140 to 150 (common practice, no source)", () => {
    const { before } = only(targetSettings(OPENED));
    const a = fuelCurve(before, PLAIN_AIR, 200).points;
    const b = fuelCurve({ ...before, settings: { ...before.settings, mainJet: 150 } }, PLAIN_AIR, 200).points;
    const gain = (low: number, high: number) => {
      const i = a.findIndex((p) => p.liftMm >= low && p.liftMm <= high);
      return (a[i]?.lambda ?? 0) / (b[i]?.lambda ?? 1) - 1;
    };
    expect(gain(3, 6)).toBeGreaterThan(0.001);
    expect(gain(3, 6)).toBeLessThan(0.02);
    expect(gain(29, 31)).toBeGreaterThan(0.085);
    expect(gain(29, 31)).toBeLessThan(0.125);
  });
});
