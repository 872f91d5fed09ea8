import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { applyChanges } from "@/lib/domain/tuning/changes";
import { mainAndNeedle, type Writable } from "@/lib/domain/tuning/mainAndNeedle";
import { heightAsked, heightWarnings, told, unsureOf } from "@/lib/domain/tuning/needleAsked";
import {
  comparedNeedles,
  cornersOf,
  demandPlane,
  diameterBelow,
  gaugeStopMm,
  needleThroughPoints,
} from "@/lib/domain/tuning/needlePoints";
import { bestPosition, type NeedlePosition } from "@/lib/domain/tuning/needlePosition";
import { recordWithReadings, UNREAD_NEEDLE } from "@/lib/domain/tuning/needleReadings";
import {
  computedAt,
  diameterAt,
  knownNeedle,
  type NeedleRecord,
  needleOf,
  recordOfShape,
  stationsBeside,
  straightLengthMm,
  wornMm,
} from "@/lib/domain/tuning/needleRecord";
import { changedNeedle, clipLess } from "@/lib/domain/tuning/needleTarget";
import { reshaped } from "@/lib/domain/tuning/needleWork";
import { stationsFor } from "@/lib/domain/tuning/solve";
import { resolve } from "@/lib/domain/tuning/station";
import type { JetChoice, KnownSettings, NeedleShape, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, PLAIN_AIR } from "./tuning-demo";

const read = <T>(value: T) => ({ value, how: "read" as const });
const assumed = <T>(value: T) => ({ value, how: "assumed" as const });

/** 2.50 mm straight for 26 mm, then 0.03 mm thinner with each millimetre for 30 mm; its jet lies 20 mm below the shoulder. */
const NEEDLE: NeedleShape = {
  straightMm: 2.5,
  straightLiftMm: 6,
  clipAt: 3,
  clipStepMm: 1,
  clips: 5,
  planeMm: 20,
  tapers: [{ lengthMm: 30, includedAngleDeg: (2 * Math.atan(0.015) * 180) / Math.PI }],
};
const { planeMm: _plane, ...UNPLACED } = NEEDLE;
const RECORD: NeedleRecord = {
  origin: "delivered",
  marks: "T7",
  stations: [
    { atMm: 10, diameterMm: 2.5 },
    { atMm: 26, diameterMm: 2.5 },
    { atMm: 36, diameterMm: 2.2 },
    { atMm: 56, diameterMm: 1.6 },
  ],
  micrometerMm: 0.01,
  grooves: 5,
  grooveStepMm: 0.9,
  grooveAt: 2,
  planeMm: 20,
  note: "",
};

describe("points along a needle (geometry, by hand)", () => {
  it("are its corners below the shoulder, and a needle through them is the needle", () => {
    const corners = cornersOf(NEEDLE);
    expect(corners.map((c) => [c.atMm, Number(c.diameterMm.toFixed(9))])).toEqual([
      [26, 2.5],
      [56, 1.6],
    ]);
    const back = needleThroughPoints(corners, 20, NEEDLE);
    expect(back).toMatchObject({ straightMm: 2.5, straightLiftMm: 6, planeMm: 20, clips: 5, clipAt: 3 });
    expect(back.tapers[0]?.lengthMm).toBeCloseTo(30, 12);
    expect(back.tapers[0]?.includedAngleDeg).toBeCloseTo(NEEDLE.tapers[0]?.includedAngleDeg ?? 0, 9);
    expect(back).not.toHaveProperty("groovesAssumed");
    expect(needleThroughPoints(corners, 20, { ...NEEDLE, groovesAssumed: true }).groovesAssumed).toBe(true);
  });
  it("are refused where they are one, none, do not go down, or are no needle's", () => {
    expect(() => needleThroughPoints([], 20, NEEDLE)).toThrow("two measured diameters");
    expect(() => needleThroughPoints([{ atMm: 20, diameterMm: 2 }], 20, NEEDLE)).toThrow(Refusal);
    const two = (atMm: number, diameterMm: number) => () =>
      needleThroughPoints(
        [
          { atMm: 20, diameterMm },
          { atMm, diameterMm: 2 },
        ],
        20,
        NEEDLE,
      );
    expect(two(20, 2.5)).toThrow("distance between stations is 0 mm");
    expect(two(20.05, 2.5)).not.toThrow();
    expect(two(141, 2.5)).toThrow("distance between stations is 121");
    expect(two(40, 6.5)).toThrow("needle diameter is 6.5 mm");
    expect(two(40, 0.4)).toThrow("needle diameter is 0.4");
    expect(() => demandPlane(UNPLACED)).toThrow("How far the needle jet lies below");
    expect(demandPlane(NEEDLE)).toBe(20);
  });
  it("stop a ring gauge where the needle is as thick as it, in whichever cone that is", () => {
    const steps = needleThroughPoints(
      [
        { atMm: 20, diameterMm: 2.5 },
        { atMm: 30, diameterMm: 2.3 },
        { atMm: 40, diameterMm: 1.9 },
      ],
      10,
      NEEDLE,
    );
    expect(gaugeStopMm(steps, 2.4)).toBeCloseTo(25, 9);
    expect(gaugeStopMm(steps, 2.1)).toBeCloseTo(35, 9);
    expect(gaugeStopMm(steps, 2.3)).toBeCloseTo(30, 9);
    expect(gaugeStopMm(steps, 2.5)).toBeCloseTo(20, 9);
    expect(gaugeStopMm(steps, 2.51)).toBeNull();
    expect(gaugeStopMm(steps, 1.89)).toBeNull();
    // As wide as the tip it passes.
    expect(gaugeStopMm(steps, cornersOf(steps).at(-1)?.diameterMm ?? 0)).toBeNull();
    expect(gaugeStopMm(steps, 1.95)).toBeCloseTo(38.75, 9);
  });
  it("tell two needles apart over the lifts that are asked about, beyond what is asked", () => {
    const other = (more: Partial<NeedleShape>) => comparedNeedles({ ...NEEDLE, ...more }, NEEDLE);
    expect(other({})).toBe("the same");
    expect(other({ straightMm: 2.49 })).toBe("slimmer");
    expect(other({ straightMm: 2.51 })).toBe("thicker");
    expect(other({ straightMm: 2.496 })).toBe("the same");
    expect(other({ straightMm: 2.504 })).toBe("the same");
    const steeper = { tapers: [{ lengthMm: 30, includedAngleDeg: 2.4 }] };
    expect(other({ straightMm: 2.52, ...steeper })).toBe("both");
    expect(other(steeper)).toBe("slimmer");
    // The taper begins at 6 mm of lift: before that nothing differs.
    expect(comparedNeedles({ ...NEEDLE, ...steeper }, NEEDLE, 6)).toBe("the same");
    expect(comparedNeedles({ ...NEEDLE, ...steeper }, NEEDLE, 36, 0.5)).toBe("the same");
    expect(comparedNeedles({ ...NEEDLE, straightMm: 2.45 }, NEEDLE, 0, 0.04)).toBe("slimmer");
  });
});

describe("a reshape's measures", () => {
  const reduce = (fromMm: number, toMm: number, byMm: number) =>
    reshaped(NEEDLE, { kind: "reduce", fromMm, toMm, byMm });
  it("run out over half a millimetre beside both places (judgement)", () => {
    const done = reduce(30, 40, 0.1);
    const off = (at: number) => Number((diameterBelow(NEEDLE, at) - diameterBelow(done, at)).toFixed(6));
    expect([29.4, 29.5, 29.75, 30, 35, 40, 40.25, 40.5, 41].map(off)).toEqual([
      0, 0, 0.05, 0.1, 0.1, 0.1, 0.05, 0, 0,
    ]);
  });
  it("are refused at once where they are no length or more than 0.4 mm", () => {
    expect(() => reduce(40, 40, 0.1)).toThrow("from 40 to 40 mm");
    expect(() => reduce(30, 40, 0.41)).toThrow("what is taken off the needle is 0.41 mm");
    expect(() => reduce(30, 40, 0)).toThrow("what is taken off the needle is 0");
    expect(() => reduce(30, 40, 0.4)).not.toThrow();
    expect(() => reshaped(UNPLACED, { kind: "reduce", fromMm: 30, toMm: 40, byMm: 0.1 })).toThrow(Refusal);
  });
  it("at stations may be as thick as found by a micrometer's step, and no thicker", () => {
    const at = (diameterMm: number) => () =>
      reshaped(NEEDLE, {
        kind: "stations",
        stations: [
          { atMm: 26, diameterMm: 2.5 },
          { atMm: 36, diameterMm },
        ],
      });
    expect(at(2.204)).not.toThrow();
    expect(at(2.206)).toThrow(
      "The needle is 2.200 mm at 36 mm below its shoulder; the package wants 2.206 mm",
    );
    expect(at(1.801)).not.toThrow();
    expect(at(1.79)).toThrow(/what is taken off the needle is 0\.4\d* mm/);
  });
  it("meet a corner of the needle without a piece of no length", () => {
    const done = reduce(26, 40, 0.05);
    expect(done.tapers.every((t) => t.lengthMm >= 0.05)).toBe(true);
    expect(diameterBelow(NEEDLE, 33) - diameterBelow(done, 33)).toBeCloseTo(0.05, 9);
    // Its run-out ends where the needle does.
    expect(diameterBelow(reduce(30, 55.5, 0.05), 56)).toBeCloseTo(1.6, 9);
    expect(reduce(25.97, 40, 0.05).tapers.length).toBeLessThanOrEqual(done.tapers.length + 1);
  });
});

describe("what is asked of the needle's height", () => {
  const applied = (...changes: Parameters<typeof applyChanges>[1]) => applyChanges(AS_FOUND, changes);
  const computed = (setting: string) => ({ setting, change: "computed" as const });
  const keys = (of: ReturnType<typeof heightAsked>) => [[...of.computed].toSorted(), of.moves];
  it("is its clip, or its shims where it has no grooves, whatever the package calls it", () => {
    const clip = applied(computed("clipPosition"), computed("mainJet"));
    expect(keys(heightAsked(clip, 5))).toEqual([["clipPosition", "mainJet"], true]);
    expect(keys(heightAsked(clip, undefined))).toEqual([["clipPosition", "mainJet"], true]);
    expect(keys(heightAsked(clip, 0))).toEqual([["mainJet", "needleShimBelowMm"], true]);
    expect(keys(heightAsked(applied(computed("needleShimBelowMm")), 5))).toEqual([["clipPosition"], true]);
    expect(keys(heightAsked(applied(computed("mainJet")), 0))).toEqual([["mainJet"], false]);
  });
  it("is nothing on top of a height that the package sets", () => {
    for (const setting of ["needleSeatMm", "needleShimBelowMm", "clipPosition"]) {
      const set = applied({ setting, change: "set", value: 2 }, computed("mainJet"));
      expect(keys(heightAsked(set, 5))).toEqual([["mainJet"], false]);
    }
    const seat = applied({ setting: "needleSeatMm", change: "set", value: 2 }, computed("clipPosition"));
    expect(keys(heightAsked(seat, 5))).toEqual([[], false]);
  });
  const position = (more: Partial<NeedlePosition>): NeedlePosition => ({
    by: "clip",
    differenceMm: 1,
    from: 3,
    to: 4,
    shims: [],
    because: [],
    question: "",
    ...more,
  });
  it("is told as computed but where it is only a difference", () => {
    const both = new Set(["clipPosition", "mainJet", "needleSeatMm", "needleShimBelowMm"] as const);
    expect(told(both, position({}))).toBe(both);
    expect([...told(both, position({ to: null }))]).toEqual(["mainJet"]);
    expect(told(both, null)).toBe(both);
  });
  it("warns of what to look at first: how it is held, its grooves, or where it sits", () => {
    const remedy = (...args: Parameters<typeof heightWarnings>) =>
      heightWarnings(...args).map((w) => [w.rule, w.remedy, w.source]);
    expect(remedy(null, false, NEEDLE)).toEqual([]);
    expect(remedy(position({ question: "Look." }), false, NEEDLE)).toEqual([]);
    expect(remedy(position({}), true, NEEDLE)).toEqual([]);
    expect(remedy(position({ question: "Look." }), true, NEEDLE)).toEqual([
      ["unknown as found", "Look.", "model"],
    ]);
    expect(remedy(null, true, NEEDLE)[0]?.[1]).toBe("Record Clip position from top as found.");
    expect(remedy(null, true, { ...NEEDLE, groovesAssumed: true })[0]?.[1]).toContain("Record the needle");
  });
  it("is unsure where only the model card says a setting", () => {
    expect(unsureOf({ mainJet: read(140), clipPosition: assumed(3) })).toEqual(["clipPosition"]);
  });
});

describe("a package's needle", () => {
  const slim = { kind: "reduce", fromMm: 30, toMm: 40, byMm: 0.05, gaugeMm: 2.05 } as const;
  const asks = (...args: Parameters<typeof changedNeedle>) => {
    const { needle, target, warnings } = changedNeedle(...args);
    return { needle, target, rules: warnings.map((w) => [w.rule, w.source]) };
  };
  const unknown = [["needle not known", "model"]];
  it("stays where the package leaves it or cannot be computed, and what is missing is asked for", () => {
    expect(asks(read(NEEDLE), undefined)).toEqual({ needle: read(NEEDLE), target: null, rules: [] });
    expect(asks(undefined, { work: slim })).toEqual({ needle: undefined, target: null, rules: unknown });
    expect(asks(read(UNPLACED), { work: slim })).toEqual({
      needle: read(UNPLACED),
      target: null,
      rules: unknown,
    });
    const exchange = { kind: "exchange", code: "N-9" } as const;
    expect(asks(read(NEEDLE), { work: exchange })).toEqual({
      needle: read(NEEDLE),
      target: null,
      rules: unknown,
    });
    expect(changedNeedle(read(NEEDLE), { work: exchange }).warnings[0]?.message).toContain("Needle N-9");
  });
  it("is the one of stock, or as the work leaves it, with where its gauge stops", () => {
    const part = read({ ...NEEDLE, straightMm: 2.45 });
    const exchange = { kind: "exchange", code: "N-9" } as const;
    expect(asks(undefined, { work: exchange, part })).toEqual({ needle: part, target: null, rules: [] });
    expect(asks(read(NEEDLE), { work: exchange, part }).target).toEqual({
      work: exchange,
      before: NEEDLE,
      after: part.value,
      gauge: null,
    });
    const done = asks(read(NEEDLE), { work: slim });
    expect(done.needle).toEqual({ value: reshaped(NEEDLE, slim), how: "computed" });
    // 2.05 mm lies 15 mm into the taper, below the work.
    expect(done.target?.gauge).toEqual({
      gaugeMm: 2.05,
      beforeMm: expect.closeTo(41, 9),
      afterMm: expect.closeTo(41, 9),
    });
    expect(done.rules).toEqual([]);
    const { gaugeMm: _, ...plain } = slim;
    expect(asks(read(NEEDLE), { work: plain }).target?.gauge).toBeNull();
  });
  it("without grooves has no clip where only the model card says one", () => {
    const found = (clipPosition: ReturnType<typeof assumed<number>> | ReturnType<typeof read<number>>) => ({
      name: "c",
      settings: { mainJet: read(140), clipPosition },
    });
    const bare = read({ ...NEEDLE, clips: 0, clipAt: 0 });
    expect(clipLess(found(assumed(3)), bare)).toEqual({ name: "c", settings: { mainJet: read(140) } });
    expect(clipLess(found(read(3)), bare)).toEqual(found(read(3)));
    expect(clipLess(found(assumed(3)), read(NEEDLE))).toEqual(found(assumed(3)));
    expect(clipLess(found(assumed(3)), undefined)).toEqual(found(assumed(3)));
  });
});

const settings: SettingValues = Object.fromEntries(
  Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]),
);
/** A bike whose needle has to go up or down: fed by a reference whose needle jet circuit is off by `error` at half throttle. */
function task(error: number, needle: NeedleShape, found: KnownSettings, more: object = {}) {
  const { clipPosition: _, ...unclipped } = settings;
  const shim = found.needleShimBelowMm?.value;
  const bare = { ...unclipped, ...(shim === undefined ? {} : { needleShimBelowMm: shim }) };
  const own = needle.clips === 0 ? bare : settings;
  const calibration = (["pilot", "straight", "taper", "main"] as const).map((region) => ({
    region,
    value: region === "main" ? 0 : error,
    sigma: 0.02,
    samples: 0,
    measured: false,
    ...more,
  }));
  const r = resolve(
    {
      card: DROVER,
      carburettors: 1,
      settings: own,
      needle: read(needle),
      reference: { settings: own, needle: read(needle), air: PLAIN_AIR },
      calibration,
    },
    PLAIN_AIR,
  );
  return { r, stations: stationsFor(r), values: own, needle, found, shims: [] };
}

describe("where the needle is to sit", () => {
  const clip = (error: number, found: KnownSettings, more: object = {}, needle = NEEDLE) =>
    bestPosition(task(error, needle, found, more));
  it("is a groove up where it is lean and down where it is rich, one at most without a measurement", () => {
    const found = { clipPosition: read(3) };
    expect(clip(-0.25, found)).toMatchObject({ by: "clip", from: 3, to: 4, differenceMm: 1, question: "" });
    expect(clip(0.35, found)).toMatchObject({ from: 3, to: 2, differenceMm: -1, shims: [] });
    expect(clip(0, found)).toMatchObject({ to: 3, differenceMm: 0, question: "" });
    const measured = clip(-0.25, found, { measured: true });
    expect(measured?.to).toBe(5);
    expect(measured?.differenceMm).toBe(2);
    expect(clip(0.5, found, { measured: true })?.to).toBe(1);
    expect(clip(-0.25, found, {}, { ...NEEDLE, clipStepMm: 0.8 })?.differenceMm).toBeCloseTo(0.8, 12);
    expect(clip(-0.25, {})).toBeNull();
    // With a larger main jet than the reference's half throttle is rich.
    const jetted = task(0, NEEDLE, found);
    expect(bestPosition({ ...jetted, values: { ...jetted.values, mainJet: 250 } })?.to).toBe(2);
  });
  it("says why: half throttle on target, or the needle up or down", () => {
    const why = (error: number) => clip(error, { clipPosition: read(3) })?.because;
    expect(why(-0.25)).toEqual([
      { fact: "Half throttle is nearest target here", from: "fuel model", effect: "needle up" },
    ]);
    expect(why(0.35)?.[0]?.effect).toBe("needle down");
    expect(why(0)).toEqual([
      { fact: "Half throttle stays on target", from: "fuel model", effect: "the needle stays" },
    ]);
  });
  it("is a difference with a question where nobody looked at the clip or counted the grooves", () => {
    const up = clip(-0.25, { clipPosition: assumed(3) });
    expect(up).toMatchObject({ from: null, to: null, differenceMm: 1 });
    expect(up?.question).toBe(
      "Look which groove the clip is in, and count the grooves: the needle is to go up by 1 from there.",
    );
    expect(clip(0.35, { clipPosition: assumed(3) })?.question).toContain("go down by 1 from there");
    expect(clip(0, { clipPosition: assumed(3) })).toMatchObject({ from: null, to: null, question: "" });
    const guessed = { ...NEEDLE, groovesAssumed: true };
    expect(clip(-0.25, { clipPosition: read(3) }, {}, guessed)).toMatchObject({ from: null, to: null });
  });
  const bare: NeedleShape = { ...NEEDLE, clips: 0, clipAt: 0 };
  const shims = (error: number, found: KnownSettings, have: readonly (readonly [number, number])[] = []) =>
    bestPosition({
      ...task(error, bare, found),
      shims: have.map(([sizeMm, free]) => ({ sizeMm, free })),
    });
  const known = { needleShimBelowMm: read(0.6) };
  it("is shims where it has no grooves: those of the drawer, else usual ones, a millimetre at most", () => {
    const far = shims(-0.9, known, [[0.3, 9]]);
    expect(far).toMatchObject({
      by: "shims",
      from: 0.6,
      to: 1.5,
      differenceMm: 0.9,
      shims: [0.3, 0.3, 0.3],
      question: "",
    });
    // A size that has run out leaves the others as many as they are.
    expect(
      shims(-0.9, known, [
        [0.3, 2],
        [0.4, 0],
      ])?.differenceMm,
    ).toBe(0.6);
    // So near to the best it stays: half of the thinnest shim's effect is not worth a change.
    const lean = (error: number) => shims(-error, known, [[0.1, 9]])?.differenceMm;
    expect([lean(0.005), lean(0.01)]).toEqual([0, 0.2]);
    expect(shims(-0.9, known, [[0.3, 2]])).toMatchObject({ differenceMm: 0.6, shims: [0.3, 0.3] });
    expect(shims(-0.9, known, [[0.3, 0]])?.differenceMm).toBe(1);
    expect(shims(-0.9, known)?.differenceMm).toBe(1);
    // No more can be taken out than lies there.
    expect(shims(0.9, known, [[0.3, 9]])).toMatchObject({ to: 0, differenceMm: -0.6, shims: [-0.3, -0.3] });
    expect(shims(0.9, { needleShimBelowMm: read(0.3) }, [[0.4, 9]])?.differenceMm).toBe(0);
    expect(shims(0, known, [[0.3, 9]])).toMatchObject({ to: 0.6, differenceMm: 0, shims: [], question: "" });
    expect(shims(0, known)?.because[0]?.effect).toBe("the needle stays");
  });
  it("is a difference and a question where nobody counted the shims", () => {
    for (const found of [{}, { needleShimBelowMm: assumed(0.6) }]) {
      expect(shims(-0.9, found, [[0.3, 9]])).toMatchObject({ from: null, to: null, differenceMm: 0.9 });
      expect(shims(-0.9, found, [[0.3, 9]])?.question).toBe(
        "Count and measure the shims below the needle's shoulder: raise it by 0.90 mm from how it is found.",
      );
      expect(shims(0.9, found, [[0.3, 9]])?.question).toContain("lower it by 0.90 mm");
      expect(shims(0, found, [[0.3, 9]])?.question).toBe("");
    }
  });
});

describe("main jet and needle in turn", () => {
  const jet = (size: number) => ({ chosen: { size } }) as unknown as JetChoice;
  const run = (
    error: number,
    moves: boolean,
    options: {
      known?: boolean;
      found?: KnownSettings;
      groove?: number;
      needle?: NeedleShape;
      sizes?: readonly number[];
    } = {},
  ) => {
    const { known = true, found = { clipPosition: read(3) }, needle = NEEDLE, sizes = [142.5] } = options;
    const asked: number[] = [];
    const one = task(error, needle, found);
    const values: Writable = { ...one.values };
    const done = mainAndNeedle(
      { ...one, values, groove: options.groove, moves, shims: [{ sizeMm: 0.3, free: 9 }] },
      known,
      (raisedMm) => {
        asked.push(raisedMm);
        const size = sizes[(asked.length - 1) % sizes.length] ?? 0;
        values.mainJet = size;
        return jet(size);
      },
    );
    return { ...done, values, asked };
  };
  it("goes on until neither changes, and leaves the needle where it is not asked for", () => {
    const still = run(-0.25, false);
    expect(still).toMatchObject({ position: null, raisedMm: 0, mainJet: { chosen: { size: 142.5 } } });
    expect(still.asked).toEqual([0, 0]);
    expect(still.values.clipPosition).toBe(3);
    const moved = run(-0.25, true);
    expect(moved.values.clipPosition).toBe(4);
    expect(moved.position?.to).toBe(4);
    expect(moved.raisedMm).toBe(0);
    expect(moved.asked).toEqual([0, 0]);
  });
  it("asks for no jet where none is known, and starts a new needle from its own groove", () => {
    const unknown = run(-0.25, true, { known: false });
    expect(unknown).toMatchObject({ mainJet: null, asked: [] });
    expect(run(-0.25, true, { found: {}, groove: 4 }).values.clipPosition).toBe(5);
    expect(run(-0.25, true, { found: {} })).toMatchObject({ position: null, raisedMm: 0 });
  });
  it("keeps the sheet's height and answers a difference where as found is not known", () => {
    const open = run(-0.25, true, { found: { clipPosition: assumed(3) } });
    expect(open.values.clipPosition).toBe(3);
    expect(open.raisedMm).toBe(1);
    expect(open.asked.at(-1)).toBe(1);
    const bare = { ...NEEDLE, clips: 0, clipAt: 0 };
    const shimmed = run(-0.9, true, { found: { needleShimBelowMm: read(0.6) }, needle: bare });
    expect(shimmed.values.needleShimBelowMm).toBe(1.5);
    expect(shimmed.raisedMm).toBe(0);
    // The second round counts from the shims that were found, not from those that the first one took.
    const some = run(-0.06, true, { found: { needleShimBelowMm: read(0.6) }, needle: bare });
    expect(some.position?.differenceMm).toBeGreaterThan(0);
    expect(some.position?.differenceMm).toBeLessThan(0.9);
    expect(some.values.needleShimBelowMm).toBeCloseTo(0.6 + (some.position?.differenceMm ?? 9), 9);
    expect(some.asked).toHaveLength(2);
  });
  it("counts with the jet that was chosen, and stops after four rounds that go to and fro", () => {
    expect(run(0, true).values.clipPosition).toBe(3);
    expect(run(0, true, { sizes: [250] }).values.clipPosition).toBe(2);
    expect(run(0, false, { sizes: [145, 150] }).asked).toHaveLength(4);
  });
});

describe("a needle's record", () => {
  it("makes a shape with the record's own grooves, else the card's, else five that are an assumption", () => {
    const card = { needle: read(NEEDLE) };
    expect(needleOf(RECORD, card).shape).toMatchObject({ clips: 5, clipAt: 2, clipStepMm: 0.9, planeMm: 20 });
    const bare = { ...RECORD, grooves: null, grooveAt: null, grooveStepMm: null };
    expect(needleOf(bare, card).shape).toMatchObject({ clips: 5, clipAt: 3, clipStepMm: 1 });
    expect(needleOf(bare, card).shape).not.toHaveProperty("groovesAssumed");
    const four = { needle: read({ ...NEEDLE, clips: 4, clipAt: 2, clipStepMm: 0.7 }) };
    expect(needleOf(bare, four).shape).toMatchObject({ clips: 4, clipAt: 2, clipStepMm: 0.7 });
    const guessed = { needle: read({ ...NEEDLE, groovesAssumed: true }) };
    expect(needleOf(bare, guessed).shape?.groovesAssumed).toBe(true);
    expect(needleOf(RECORD, guessed).shape).not.toHaveProperty("groovesAssumed");
    expect(needleOf(bare, {}).shape).toMatchObject({
      clips: 5,
      clipAt: 3,
      clipStepMm: 1,
      groovesAssumed: true,
    });
    expect(needleOf({ ...bare, grooves: 6 }, {}).shape?.clipAt).toBe(3);
    expect(needleOf({ ...RECORD, grooves: 0 }, card).shape).toMatchObject({ clips: 0, clipAt: 0 });
    expect(knownNeedle(RECORD, card)?.how).toBe("measured");
    expect(knownNeedle(null, card)).toBeUndefined();
    expect(knownNeedle({ ...RECORD, stations: [] }, {})).toBeUndefined();
  });
  it("lies in its jet as measured, else as the card says, else by where its taper begins", () => {
    const bare = { ...RECORD, planeMm: null };
    expect(needleOf(bare, { needle: read({ ...NEEDLE, planeMm: 19 }) }).shape?.planeMm).toBe(19);
    expect(needleOf(bare, { needle: read(UNPLACED) }).shape?.planeMm).toBe(20);
    // With a coarser micrometer the step to 36 mm is still a taper; without one, a hundredth is taken.
    expect(needleOf({ ...bare, micrometerMm: null }, { needle: read(UNPLACED) }).shape?.planeMm).toBe(20);
    expect(needleOf({ ...bare, micrometerMm: 0.3 }, { needle: read(UNPLACED) }).shape?.planeMm).toBe(30);
    const straight = { ...bare, stations: RECORD.stations.slice(0, 2) };
    expect(needleOf(straight, { needle: read(UNPLACED) }).ask).toContain("how far the needle jet lies below");
    expect(needleOf({ ...bare, stations: RECORD.stations.slice(0, 1) }, {}).ask).toContain("two stations");
  });
  it("is told beyond its readings by the card's needle where it is the delivered one, never thicker below nor thinner above", () => {
    const card = { needle: read(NEEDLE) };
    const one = (atMm: number, diameterMm: number, origin: NeedleRecord["origin"] = "delivered") =>
      needleOf({ ...RECORD, origin, stations: [{ atMm, diameterMm }] }, card);
    const at = (record: ReturnType<typeof one>, mm: number) =>
      record.shape && Number(diameterBelow(record.shape, mm).toFixed(6));
    const worn = one(36, 2.17);
    expect([26, 36, 56].map((mm) => at(worn, mm))).toEqual([2.5, 2.17, 1.6]);
    expect(at(one(56, 1.5), 26)).toBe(2.5);
    expect(at(one(26, 2.45), 26)).toBe(2.45);
    // Read thinner at 36 mm than the card has at 56: below it is that thin too.
    expect(at(one(36, 1.5), 56)).toBe(1.5);
    expect(at(one(36, 2.6), 26)).toBe(2.6);
    // A corner 0.05 mm from a reading is that reading.
    expect(one(26.05, 2.48).shape?.tapers).toHaveLength(1);
    expect(one(55.95, 1.58).shape?.tapers).toHaveLength(1);
    expect(needleOf({ ...RECORD, stations: [] }, card).ask).toContain("two stations");
    expect(one(36, 2.17, "reshaped").ask).toContain("two stations");
    expect(
      needleOf({ ...RECORD, stations: [{ atMm: 36, diameterMm: 2.17 }] }, { needle: read(UNPLACED) }).ask,
    ).toContain("two stations");
  });
  it("has a straight part to the last station as thick as the first, and wear against the delivered needle", () => {
    expect(straightLengthMm(RECORD)).toBe(26);
    expect(straightLengthMm({ ...RECORD, micrometerMm: null })).toBe(26);
    expect(straightLengthMm({ ...RECORD, micrometerMm: 0.3 })).toBe(36);
    expect(straightLengthMm({ ...RECORD, stations: [] })).toBeNull();
    const step = { atMm: 30, diameterMm: 2.49 };
    expect(straightLengthMm({ ...RECORD, stations: [...RECORD.stations.slice(0, 2), step] })).toBe(30);
    const thin = (mm: number, diameterMm: number) => ({ atMm: mm, diameterMm });
    expect(wornMm({ ...RECORD, stations: [thin(26, 2.48), thin(36, 2.15)] }, NEEDLE)).toBeCloseTo(0.05, 9);
    expect(wornMm({ ...RECORD, stations: [thin(36, 2.21)] }, NEEDLE)).toBeCloseTo(-0.01, 9);
    expect(wornMm({ ...RECORD, stations: [] }, NEEDLE)).toBeNull();
    expect(wornMm(RECORD, UNPLACED)).toBeNull();
    expect(wornMm(RECORD, undefined)).toBeNull();
  });
  it("of a known shape holds its corners to a thousandth, and its grooves where somebody counted them", () => {
    expect(recordOfShape(NEEDLE, "bought", "N9")).toEqual({
      origin: "bought",
      marks: "N9",
      stations: [
        { atMm: 26, diameterMm: 2.5 },
        { atMm: 56, diameterMm: 1.6 },
      ],
      micrometerMm: null,
      grooves: 5,
      grooveStepMm: 1,
      grooveAt: 3,
      planeMm: 20,
      note: "",
    });
    expect(recordOfShape({ ...NEEDLE, planeMm: 20.12345 }, "bought")).toMatchObject({
      marks: "",
      planeMm: 20.123,
    });
    expect(recordOfShape({ ...NEEDLE, groovesAssumed: true }, "bought")?.grooves).toBeNull();
    expect(recordOfShape({ ...NEEDLE, clips: 0, clipAt: 0 }, "bought")).toMatchObject({
      grooves: 0,
      grooveStepMm: null,
      grooveAt: null,
    });
    expect(recordOfShape(UNPLACED, "bought")).toBeNull();
  });
  it("is a cone between its stations, straight above the first, and unknown below the last", () => {
    const at = (mm: number) => {
      const d = diameterAt(RECORD, mm);
      return d === null ? null : Number(d.toFixed(9));
    };
    expect([0, 10, 18, 26, 31, 36, 46, 56, 56.1].map(at)).toEqual([
      2.5,
      2.5,
      2.5,
      2.5,
      2.35,
      2.2,
      1.9,
      1.6,
      null,
    ]);
    const part: NeedleRecord = {
      ...RECORD,
      stations: RECORD.stations.map((s) => (s.atMm === 36 ? { ...s, computed: true as const } : s)),
    };
    expect([5, 10, 20, 26, 30, 36, 40, 56].map((mm) => computedAt(part, mm) === true)).toEqual([
      false,
      false,
      false,
      false,
      true,
      true,
      true,
      false,
    ]);
  });
  it("computes nothing beyond its last station, nor without any", () => {
    const last: NeedleRecord = { ...RECORD, stations: [{ atMm: 10, diameterMm: 2, computed: true }] };
    expect(computedAt(last, 60)).toBe(true);
    expect(computedAt(RECORD, 60)).toBeFalsy();
    expect(computedAt({ ...RECORD, stations: [] }, 10)).toBeFalsy();
    expect(UNREAD_NEEDLE).toMatchObject({ marks: "", note: "", stations: [], grooves: null });
  });
  it("lies beside others at the places that were measured, each once and in order, or at all where none was", () => {
    const of = (micrometerMm: number | null, ...places: number[]): NeedleRecord => ({
      ...RECORD,
      micrometerMm,
      stations: places.map((atMm) => ({ atMm, diameterMm: 2 })),
    });
    expect(stationsBeside([of(0.01, 30, 20), of(null, 25), of(0.01, 20, 40)])).toEqual([20, 30, 40]);
    expect(stationsBeside([of(null, 9, 25), of(null, 100)])).toEqual([9, 25, 100]);
    expect(stationsBeside([])).toEqual([]);
    const computed: NeedleRecord = {
      ...of(0.01),
      stations: [
        { atMm: 5, diameterMm: 2, computed: true },
        { atMm: 6, diameterMm: 2 },
      ],
    };
    expect(stationsBeside([computed])).toEqual([6]);
  });
});

describe("readings put into a record", () => {
  const at = (stationMm: number | null, diameterMm: number, stepMm: number | null = 0.01) => ({
    stationMm,
    diameterMm,
    stepMm,
  });
  const put = (
    record: NeedleRecord,
    readings: readonly ReturnType<typeof at>[],
    measured = true,
    delivered: NeedleShape | undefined = NEEDLE,
  ) => recordWithReadings({ record, measured }, readings, delivered);
  it("stand at one place where they are nearer than 0.06 mm, in order along the needle", () => {
    const places = put(UNREAD_NEEDLE, [at(40, 2), at(30, 2.3), at(40.05, 1.99), at(40.12, 1.98)]).stations;
    expect(places.map((s) => [s.atMm, s.diameterMm])).toEqual([
      [30, 2.3],
      [40.05, 1.99],
      [40.12, 1.98],
    ]);
  });
  it("leave a target's instrument out, and the step unknown where no card says it", () => {
    const made = { ...RECORD, micrometerMm: 0.05 };
    expect(put(made, [at(36, 2.1, 0.001)]).micrometerMm).toBe(0.05);
    expect(put(made, [at(36, 2.1, 0.001)], false).micrometerMm).toBe(0.001);
    expect(put({ ...RECORD, micrometerMm: null }, [at(36, 2.1, null)]).micrometerMm).toBeNull();
    expect(put(RECORD, [at(36, 2.1)], false).stations.filter((s) => s.computed)).toHaveLength(3);
    expect(put(RECORD, [at(36, 2.1)]).stations.some((s) => s.computed)).toBe(false);
  });
  it("tell in the note what has no place, after what stood there, in 500 signs at most", () => {
    const lost = put({ ...UNREAD_NEEDLE, note: "Bent tip." }, [at(null, 2.4)], true, UNPLACED);
    expect(lost.note).toBe("Bent tip. Straight part 2.4 mm; how far it goes is not measured.");
    expect(lost.stations).toEqual([]);
    expect(
      put({ ...UNREAD_NEEDLE, note: "x".repeat(499) }, [at(null, 2.4)], true, UNPLACED).note,
    ).toHaveLength(500);
    expect(put(UNREAD_NEEDLE, [at(30, 2.3)]).note).toBe("");
    const bought = put({ ...UNREAD_NEEDLE, origin: "bought" }, [at(null, 2.4)]);
    expect(bought.stations).toEqual([]);
  });
  it("of the straight part go to all of it: two places of a measured needle, one of a target, the card's end else", () => {
    const straight = (record: NeedleRecord, measured = true, delivered: NeedleShape | undefined = NEEDLE) =>
      put(record, [at(null, 2.4)], measured, delivered)
        .stations.filter((s) => s.diameterMm === 2.4)
        .map((s) => s.atMm);
    expect(straight(RECORD)).toEqual([10, 26]);
    const cone = { ...RECORD, stations: RECORD.stations.slice(1) };
    expect(straight(cone)).toEqual([26]);
    expect(straight(cone, false)).toEqual([26]);
    expect(straight(cone, true, UNPLACED)).toEqual([]);
    expect(straight(cone, false, UNPLACED)).toEqual([26]);
    expect(straight(UNREAD_NEEDLE)).toEqual([26]);
    // Its one reading lies on the straight part already: that is the place, if it is not past its end.
    const first = (atMm: number) => ({ ...UNREAD_NEEDLE, stations: [{ atMm, diameterMm: 2.45 }] });
    expect(straight(first(20))).toEqual([20]);
    expect(straight(first(26.05))).toEqual([26.05]);
    expect(straight(first(36))).toEqual([26]);
    // A step of the micrometer is no taper; without one a hundredth is not.
    const near = (d: number, micrometerMm: number | null) => ({
      ...RECORD,
      micrometerMm,
      stations: [
        { atMm: 10, diameterMm: 2.5 },
        { atMm: 20, diameterMm: d },
        { atMm: 36, diameterMm: 2.2 },
      ],
    });
    expect(straight(near(2.49, 0.01))).toEqual([10, 20]);
    expect(straight(near(2.49, null))).toEqual([10, 20]);
    expect(straight(near(2.45, 0.05))).toEqual([10, 20]);
    expect(straight(near(2.48, 0.01))).toEqual([10]);
  });
});
