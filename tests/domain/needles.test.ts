import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { annulusMm2, needleDiameterMm } from "@/lib/domain/tuning/needle";
import { comparedNeedles, cornersOf, diameterBelow, gaugeStopMm } from "@/lib/domain/tuning/needlePoints";
import { meanRingMm2 } from "@/lib/domain/tuning/needleProfile";
import { type NeedleRecord, needleOf, straightLengthMm, wornMm } from "@/lib/domain/tuning/needleRecord";
import { reshaped } from "@/lib/domain/tuning/needleWork";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import type {
  FuelState,
  Known,
  ModelCardFacts,
  NeedleShape,
  SettingValues,
  TargetInput,
} from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, mainJets, OPENED, PLAIN_AIR } from "./tuning-demo";

const read = <T>(value: T): Known<T> => ({ value, how: "read" });

/** 2.50 mm straight for 26 mm, then 0.03 mm thinner with each millimetre; its jet lies 20 mm below the shoulder; no grooves. */
const PLAIN: NeedleShape = {
  straightMm: 2.5,
  straightLiftMm: 6,
  clipAt: 0,
  clipStepMm: 1,
  clips: 0,
  planeMm: 20,
  tapers: [{ lengthMm: 30, includedAngleDeg: (2 * Math.atan(0.015) * 180) / Math.PI }],
};
const CARD: ModelCardFacts = { ...DROVER, needle: read(PLAIN) };
const { clipPosition: _, ...UNCLIPPED } = AS_FOUND;
const FOUND = { ...UNCLIPPED, needleShimBelowMm: read(0.5) };
const SETTINGS: SettingValues = Object.fromEntries(Object.entries(FOUND).map(([key, k]) => [key, k.value]));

const state = (more: Partial<FuelState>, card = CARD): FuelState => ({
  card,
  carburettors: 1,
  settings: SETTINGS,
  reference: { settings: SETTINGS, air: PLAIN_AIR },
  ...more,
});
const lambdas = (s: FuelState) => fuelCurve(s, PLAIN_AIR, 25).points.map((p) => p.lambda);

const RECORD: NeedleRecord = {
  origin: "delivered",
  marks: "T7",
  stations: [
    { atMm: 10, diameterMm: 2.5 },
    { atMm: 26, diameterMm: 2.5 },
    { atMm: 36, diameterMm: 2.2 },
    { atMm: 46, diameterMm: 1.9 },
    { atMm: 56, diameterMm: 1.6 },
  ],
  micrometerMm: 0.01,
  grooves: 0,
  grooveStepMm: null,
  grooveAt: null,
  planeMm: 20,
  note: "",
};

describe("a needle's geometry", () => {
  it("is 2.50 mm to 26 mm below the shoulder, then 0.03 mm thinner with each millimetre (by hand)", () => {
    expect(diameterBelow(PLAIN, 20)).toBeCloseTo(2.5, 12);
    expect(diameterBelow(PLAIN, 26)).toBeCloseTo(2.5, 12);
    expect(diameterBelow(PLAIN, 36)).toBeCloseTo(2.2, 10);
    expect(needleDiameterMm(PLAIN, 26)).toBeCloseTo(1.9, 10);
    expect(annulusMm2(2.6, diameterBelow(PLAIN, 36))).toBeCloseTo((Math.PI / 4) * (6.76 - 4.84), 9);
  });
  it("has a mean ring that an independent numerical integration agrees with", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 0.5, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 0.1, noNaN: true }),
        (from, length, by) => {
          const needle = reshaped(PLAIN, { kind: "reduce", fromMm: 28, toMm: 40, byMm: 0.001 + by });
          const n = 20_000;
          let sum = 0;
          for (let i = 0; i < n; i++)
            sum += annulusMm2(2.6, needleDiameterMm(needle, from + ((i + 0.5) * length) / n));
          expect(meanRingMm2(needle, 2.6, from, from + length)).toBeCloseTo(sum / n, 5);
        },
      ),
      { numRuns: 20 },
    );
  });
  it("stops a ring gauge where the needle is as thick as the gauge: 2.05 mm at 41 mm below the shoulder (by hand)", () => {
    expect(gaugeStopMm(PLAIN, 2.05)).toBeCloseTo(41, 9);
    expect(gaugeStopMm(PLAIN, 1.5)).toBeNull();
    expect(gaugeStopMm(PLAIN, 2.6)).toBeNull();
  });
});

describe("a reshaped needle", () => {
  it("is thinner by what was asked for between the two places and as before beyond half a millimetre from them", () => {
    const needle = reshaped(PLAIN, { kind: "reduce", fromMm: 28, toMm: 40, byMm: 0.05 });
    for (const at of [28, 31, 36, 40])
      expect(diameterBelow(PLAIN, at) - diameterBelow(needle, at)).toBeCloseTo(0.05, 9);
    for (const at of [20, 27.5, 40.5, 50])
      expect(diameterBelow(needle, at)).toBeCloseTo(diameterBelow(PLAIN, at), 9);
    expect(comparedNeedles(needle, PLAIN)).toBe("slimmer");
  });
  it("is the same as one typed as delivered with its profile: every lambda agrees", () => {
    const needle = reshaped(PLAIN, { kind: "reduce", fromMm: 28, toMm: 40, byMm: 0.05 });
    const typed = needleOf(
      { ...RECORD, stations: [{ atMm: 5, diameterMm: 2.5 }, ...cornersOf(needle)] },
      {},
    ).shape;
    if (!typed) throw new Error("not read");
    const settings = { ...SETTINGS, mainJet: 145 };
    const asWork = lambdas(state({ settings, needle: read(needle) }));
    const asTyped = lambdas(state({ settings, needle: read(typed) }));
    asWork.forEach((l, i) => {
      expect(l).toBeCloseTo(asTyped[i] ?? 0, 9);
    });
    const delivered = { ...CARD, needle: read(typed) };
    const same = { settings: SETTINGS, air: PLAIN_AIR };
    lambdas(state({ settings, reference: { ...same, needle: read(needle) }, needle: read(needle) })).forEach(
      (l, i) => {
        expect(l).toBeCloseTo(lambdas(state({ settings, reference: same }, delivered))[i] ?? 0, 9);
      },
    );
  });
  it("never leans any lift: a slimmer needle is as rich or richer at every opening", () => {
    const before = lambdas(state({}));
    fc.assert(
      fc.property(
        fc.double({ min: 15, max: 45, noNaN: true }),
        fc.double({ min: 0.2, max: 10, noNaN: true }),
        fc.double({ min: 0.002, max: 0.3, noNaN: true }),
        (fromMm, length, byMm) => {
          const needle = reshaped(PLAIN, { kind: "reduce", fromMm, toMm: fromMm + length, byMm });
          lambdas(state({ needle: read(needle) })).forEach((l, i) => {
            expect(l).toBeLessThanOrEqual((before[i] ?? 0) + 1e-9);
          });
        },
      ),
      { numRuns: 40 },
    );
  });
  it("gets no thicker, and not more than 0.4 mm thinner", () => {
    const stations = (d: number) => [
      { atMm: 26, diameterMm: 2.5 },
      { atMm: 36, diameterMm: d },
    ];
    expect(() => reshaped(PLAIN, { kind: "stations", stations: stations(2.25) })).toThrow(Refusal);
    expect(() => reshaped(PLAIN, { kind: "stations", stations: stations(1.7) })).toThrow(Refusal);
    const done = reshaped(PLAIN, { kind: "stations", stations: stations(2.15) });
    expect(diameterBelow(done, 36)).toBeCloseTo(2.15, 10);
    expect(() => reshaped(PLAIN, { kind: "reduce", fromMm: 40, toMm: 30, byMm: 0.05 })).toThrow("no length");
  });
});

describe("a measured needle", () => {
  it("lies in its jet as measured: five stations make the needle they were taken of", () => {
    const { shape, ask } = needleOf(RECORD, {});
    expect(ask).toBe("");
    for (const lift of [0, 3, 6, 10, 20, 30])
      expect(needleDiameterMm(shape as NeedleShape, lift)).toBeCloseTo(needleDiameterMm(PLAIN, lift), 9);
    expect(shape?.clips).toBe(0);
    expect(straightLengthMm(RECORD)).toBe(26);
    expect(wornMm({ ...RECORD, stations: [{ atMm: 36, diameterMm: 2.17 }] }, PLAIN)).toBeCloseTo(0.03, 9);
    expect(wornMm(RECORD, undefined)).toBeNull();
  });
  it("is placed by the card's taper where nobody measured the jet's depth, and asks where the card says nothing", () => {
    const bare = { ...RECORD, planeMm: null };
    const { planeMm: _plane, ...unplaced } = PLAIN;
    expect(needleOf(bare, { needle: read(unplaced) }).shape?.planeMm).toBeCloseTo(20, 12);
    expect(needleOf(bare, {}).shape).toBeNull();
    expect(needleOf(bare, {}).ask).toContain("how far the needle jet lies below");
    expect(needleOf({ ...RECORD, stations: [] }, {}).ask).toContain("two stations");
  });
  it("has grooves that nobody counted only as an assumption", () => {
    expect(needleOf({ ...RECORD, grooves: null }, {}).shape?.groovesAssumed).toBe(true);
    expect(needleOf(RECORD, {}).shape?.groovesAssumed).toBeUndefined();
  });
});

describe("a needle's height", () => {
  it("is raised by a shim below the shoulder as by its seat", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 1.5, noNaN: true }), (x) => {
        const seat = { ...SETTINGS, needleSeatMm: 2 };
        const reference = { settings: seat, air: PLAIN_AIR };
        const bySeat = lambdas(state({ reference, settings: { ...seat, needleSeatMm: 2 + x } }));
        const byShim = lambdas(state({ reference, settings: { ...seat, needleShimBelowMm: 0.5 + x } }));
        const byDifference = lambdas(state({ reference, settings: seat, raisedMm: x }));
        bySeat.forEach((l, i) => {
          expect(byShim[i]).toBeCloseTo(l, 10);
          expect(byDifference[i]).toBeCloseTo(l, 10);
        });
      }),
      { numRuns: 30 },
    );
  });
  it("does not change with a shim above the shoulder", () => {
    expect(lambdas(state({ settings: { ...SETTINGS, needleShimAboveMm: 0.5 } }))).toEqual(lambdas(state({})));
  });
  it("shows no change where nobody knows the seat, but both cases in a wider band, with what would settle it", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 6, noNaN: true }), (seat) => {
        const curve = fuelCurve(state({ settings: { ...SETTINGS, needleSeatMm: seat } }), PLAIN_AIR, 25);
        expect(curve.cases.map((c) => c.name)).toEqual([
          "needle found 0.5 mm lower",
          "needle found 0.5 mm higher",
        ]);
        expect(curve.cases[0]?.settle).toContain("seat height");
        curve.points.forEach((p, i) => {
          for (const one of curve.cases) {
            expect(one.lambda[i]).toBeGreaterThanOrEqual(p.low - 1e-9);
            expect(one.lambda[i]).toBeLessThanOrEqual(p.high + 1e-9);
          }
        });
        const known = fuelCurve(state({}), PLAIN_AIR, 25).points;
        expect(curve.points[4]?.lambda).toBeCloseTo(known[4]?.lambda ?? 0, 1);
      }),
      { numRuns: 15 },
    );
  });
  it("keeps clip, shims, pilot jet and numbering in the band where the card alone says them", () => {
    const open = (reference: SettingValues, settings: SettingValues, card = DROVER) =>
      fuelCurve(
        state(
          { reference: { settings: reference, air: PLAIN_AIR, unsure: ["clipPosition"] }, settings },
          card,
        ),
        PLAIN_AIR,
        9,
      );
    const { pilotJet: _pilot, ...unread } = SETTINGS;
    const { jetConvention: _convention, ...unnumbered } = DROVER;
    const { needleShimBelowMm: _shim, ...unshimmed } = SETTINGS;
    for (const [curve, names] of [
      [
        open({ ...SETTINGS, clipPosition: 3 }, { ...SETTINGS, clipPosition: 4 }),
        ["clip found in groove 2", "clip found in groove 4"],
      ],
      [open(unread, { ...SETTINGS, pilotJet: 50 }), ["pilot jet found 50 already"]],
      [open(SETTINGS, { ...SETTINGS, mainJet: 150 }, unnumbered), ["jets numbered by flow"]],
      [open(unshimmed, SETTINGS), ["no shim below the needle as found"]],
    ] as const) {
      expect(curve.cases.map((c) => c.name)).toEqual(names);
      curve.points.forEach((p, i) => {
        for (const one of curve.cases) {
          expect(one.lambda[i]).toBeGreaterThanOrEqual(p.low - 1e-9);
          expect(one.lambda[i]).toBeLessThanOrEqual(p.high + 1e-9);
        }
      });
    }
    expect(open(SETTINGS, SETTINGS).cases).toEqual([]);
  });
});

describe("target settings with a needle", () => {
  const slim = { kind: "reduce", fromMm: 26, toMm: 46, byMm: 0.06, gaugeMm: 2.05 } as const;
  const input = (more: Partial<TargetInput>): TargetInput => ({
    ...OPENED,
    card: CARD,
    carburettors: [{ name: "carburettor", settings: FOUND }],
    jets: mainJets([135, 137.5, 140, 142.5, 145, 147.5]),
    ...more,
  });
  const solve = (more: Partial<TargetInput>) => {
    const sheet = targetSettings(input(more));
    const [c] = sheet.carburettors;
    if (!c) throw new Error("no carburettor");
    return { sheet, c, rules: sheet.warnings.map((w) => w.rule) };
  };

  it("moves the curve by a reshape and tells where the gauge stops before and after", () => {
    const { c } = solve({ changes: [], needleChange: { work: slim } });
    expect(c.needle?.gauge).toMatchObject({
      gaugeMm: 2.05,
      beforeMm: expect.closeTo(41, 6),
      afterMm: expect.closeTo(39, 6),
    });
    const [was, is] = [c.before, c.after].map((s) => fuelCurve(s, PLAIN_AIR, 25).points);
    expect(is?.[12]?.lambda).toBeLessThan((was?.[12]?.lambda ?? 0) - 0.01);
  });
  it("answers by shims of the drawer where the needle has no grooves, and by no clip", () => {
    const changes = [{ setting: "clipPosition", change: "computed" } as const];
    const { c } = solve({ changes, needleChange: { work: slim }, shims: [{ sizeMm: 0.25, free: 2 }] });
    expect(c.needlePosition?.by).toBe("shims");
    expect(c.needlePosition?.differenceMm).toBeLessThan(0);
    expect(Math.abs((c.needlePosition?.differenceMm ?? 0) % 0.25)).toBeCloseTo(0, 9);
    const below = c.settings.find((s) => s.key === "needleShimBelowMm");
    expect(below?.value).toBeCloseTo(0.5 + (c.needlePosition?.differenceMm ?? 0), 9);
    expect(c.settings.find((s) => s.key === "clipPosition")).toBeUndefined();
  });
  it("answers by a difference and a question where nobody counted the shims, with no number on the sheet", () => {
    const { needleShimBelowMm: _shim, ...settings } = FOUND;
    const { c, sheet } = solve({
      carburettors: [{ name: "carburettor", settings }],
      changes: [{ setting: "clipPosition", change: "computed" }],
      needleChange: { work: slim },
    });
    expect(c.needlePosition).toMatchObject({ by: "shims", from: null, to: null });
    expect(c.needlePosition?.question).toMatch(/^Count and measure the shims .* lower it by \d\.\d\d mm/);
    expect(c.settings.some((s) => s.key === "needleShimBelowMm" || s.key === "clipPosition")).toBe(false);
    expect(sheet.warnings.map((w) => w.remedy)).toContain(c.needlePosition?.question);
    expect(c.after.raisedMm).toBe(c.needlePosition?.differenceMm);
  });
  it("invents no clip for a lower seat, nor on top of a height that the package sets", () => {
    const settings = { ...AS_FOUND, needleSeatMm: read(3) };
    const carburettors = [{ name: "carburettor", settings }];
    const changes = [
      { setting: "needleSeatMm", change: "add", value: -0.5 },
      { setting: "clipPosition", change: "computed" },
    ] as const;
    const { c } = solve({ card: DROVER, carburettors, changes });
    expect(c.settings.find((s) => s.key === "clipPosition")).toMatchObject({ value: 3, how: "read" });
    const assumed = { ...AS_FOUND, clipPosition: { value: 3, how: "assumed" as const } };
    const unknown = solve({ card: DROVER, carburettors: [{ name: "carburettor", settings: assumed }] });
    expect(unknown.c.settings.find((s) => s.key === "clipPosition")?.value).toBe(3);
  });
  it("asks for what it needs to place a reshape, and computes the rest", () => {
    const { planeMm: _plane, ...unplaced } = PLAIN;
    const { c, rules } = solve({ card: { ...CARD, needle: read(unplaced) }, needleChange: { work: slim } });
    expect(rules).toContain("needle not known");
    expect(c.needle).toBeNull();
    expect(c.mainJet).not.toBeNull();
    const none = solve({ card: { ...CARD, needle: undefined }, needleChange: { work: slim } });
    expect(none.rules).toContain("needle not known");
    expect(solve({ needleChange: { work: { kind: "exchange", code: "N-9" } } }).rules).toContain(
      "needle not known",
    );
  });
  it("wants only the snorkel out with a slimmer needle on the same main jet, by the parts and not by words (common practice)", () => {
    const cut = [{ setting: "airboxOpeningMm", change: "set", value: 51 }] as const;
    const snorkel = [{ setting: "snorkelFitted", change: "set", value: 0 }] as const;
    const withCut = solve({ changes: cut, needleChange: { work: slim } }).rules;
    expect(withCut).toContain("needle with cut opening");
    expect(withCut).not.toContain("airbox without main");
    const out = solve({ changes: snorkel, needleChange: { work: slim } }).rules;
    expect(out).not.toContain("needle with cut opening");
    expect(out).not.toContain("airbox without main");
    expect(solve({ changes: snorkel }).rules).toContain("airbox without main");
    const before = [{ name: "c", settings: FOUND, needle: read(reshaped(PLAIN, slim)) }];
    expect(solve({ changes: cut, carburettors: before }).rules).toContain("needle with cut opening");
  });
  it("leaves the pilot jet where a spring is cut or a slide is drilled (common practice, no source)", () => {
    for (const change of [
      { setting: "springLengthMm", change: "set", value: 98 },
      { setting: "liftHoleMm", change: "set", value: 3 },
    ] as const) {
      const jets = [
        ...input({}).jets,
        ...[40, 42.5, 45, 47.5, 50].map((size) => ({
          setting: "pilotJet" as const,
          convention: "bore" as const,
          size,
          free: 2,
          orderable: true,
        })),
      ];
      const { c } = solve({
        jets,
        changes: [
          change,
          { setting: "pilotJet", change: "computed" },
          { setting: "mixtureScrewTurns", change: "computed" },
        ],
      });
      expect(c.settings.find((s) => s.key === "pilotJet")?.value).toBe(AS_FOUND.pilotJet.value);
      expect(c.screwStart?.value).toBe(AS_FOUND.mixtureScrewTurns.value);
    }
  });
});

describe("a needle whose clip nobody looked at", () => {
  it("gets a difference and no groove on the sheet, with both cases in the band", () => {
    const clipPosition = { value: 3, how: "assumed" as const };
    const thicker = {
      ...PLAIN,
      clips: 5,
      clipAt: 3,
      straightMm: 2.45,
      tapers: [{ lengthMm: 30, includedAngleDeg: 1.9 }],
    };
    const sheet = targetSettings({
      ...OPENED,
      carburettors: [{ name: "c", settings: { ...AS_FOUND, clipPosition } }],
      changes: [{ setting: "clipPosition", change: "computed" }],
      needleChange: {
        work: {
          kind: "stations",
          stations: [
            { atMm: 20, diameterMm: 2.45 },
            { atMm: 50, diameterMm: 1.5 },
          ],
        },
      },
      card: { ...CARD, needle: { value: { ...thicker, straightMm: 2.5 }, how: "read" } },
    });
    const [c] = sheet.carburettors;
    expect(c?.needlePosition).toMatchObject({ by: "clip", to: null, from: null });
    expect(c?.needlePosition?.differenceMm).not.toBe(0);
    expect(c?.settings.find((s) => s.key === "clipPosition")).toMatchObject({ value: 3, how: "assumed" });
    expect(sheet.warnings.map((w) => w.remedy).join()).toContain("Look which groove the clip is in");
  });
});
