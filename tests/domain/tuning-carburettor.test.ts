import { describe, expect, it } from "vitest";
import { airFromReading } from "@/lib/domain/air/weather";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { CarburettorTarget, JetOnHand, NeedleShape, TargetInput } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, OPENED } from "./tuning-demo";

const read = <T>(value: T) => ({ value, how: "read" as const });
const solve = (more: Partial<TargetInput>): CarburettorTarget => {
  const [first] = targetSettings({ ...OPENED, ...more }).carburettors;
  if (!first) throw new Error("no carburettor");
  return first;
};
const value = (c: CarburettorTarget, key: string) => c.settings.find((s) => s.key === key)?.value;
const shape = DROVER.needle?.value as NeedleShape;

describe("a needle that the work puts in", () => {
  const clip = [{ setting: "clipPosition", change: "computed" }] as const;

  it("starts from its own groove, also where it is exchanged by its part", () => {
    const part = read({ ...shape, clipAt: 4 });
    const exchange = { work: { kind: "exchange", code: "N-9" }, part } as const;
    expect(value(solve({ changes: [], needleChange: exchange }), "clipPosition")).toBe(4);
    // The same needle described from its first groove, two above: it stays there, and does not start from the old one's third.
    const first = read({ ...shape, clipAt: 1 });
    expect(value(solve({ changes: clip, newNeedle: first }), "clipPosition")).toBe(1);
  });

  it("keeps the fitted groove where the old needle is reshaped", () => {
    const work = { kind: "reduce", fromMm: 26, toMm: 46, byMm: 0.06, gaugeMm: 2.05 } as const;
    const needle = read({ ...shape, planeMm: 20 });
    const card = { ...DROVER, needle };
    expect(value(solve({ card, changes: [], needleChange: { work } }), "clipPosition")).toBe(3);
  });
});

describe("shims of the drawer", () => {
  it("are shared out between carburettors that are found alike", () => {
    const { clipPosition: _, ...unclipped } = AS_FOUND;
    const settings = { ...unclipped, needleShimBelowMm: read(0) };
    const needle = { ...shape, clips: 0, clipAt: 0 };
    const learned = (["pilot", "straight", "taper", "main"] as const).map((region) => ({
      region,
      value: -0.06,
      sigma: 0.02,
      samples: 1,
    }));
    const raised = (names: readonly string[], free: number) =>
      solve({
        card: { ...DROVER, needle: read(needle) },
        carburettors: names.map((name) => ({ name, settings })),
        changes: [{ setting: "clipPosition", change: "computed" }],
        shims: [{ sizeMm: 0.25, free }],
        calibration: learned,
      }).needlePosition?.shims;
    expect(raised(["one"], 2)).toEqual([0.25, 0.25]);
    expect(raised(["left", "right"], 2)).toEqual([0.25]);
    expect(raised(["left", "right"], 3)).toEqual([0.25]);
    expect(raised(["left", "right"], 4)).toEqual([0.25, 0.25]);
  });
});

describe("what is held back until it is measured", () => {
  const high = airFromReading({ stationPa: 70_000, temperatureC: 20, humidity: 0.4 });
  const held = (more: Partial<TargetInput> = {}) =>
    targetSettings({
      ...OPENED,
      now: high,
      changes: (["mainJet", "clipPosition", "pilotJet"] as const).map((setting) => ({
        setting,
        change: "computed" as const,
      })),
      jets: [],
      ...more,
    }).refusals.map((r) => r.setting);
  const rich = (["pilot", "straight", "taper", "main"] as const).map((region) => ({
    region,
    value: region === "pilot" || region === "main" ? 0.15 : 0,
    sigma: 0.02,
    samples: 1,
  }));

  it("is told once for each jet, however many rounds main jet and needle took", () => {
    expect(held({ calibration: rich })).toEqual(["mainJet", "pilotJet"]);
    const main = rich.map((c) => ({ ...c, value: c.region === "main" ? 0.15 : 0 }));
    expect(held({ calibration: main, now: OPENED.now })).toEqual(["mainJet"]);
  });
});

describe("a cutaway", () => {
  it("is computed where the package asks for it and left alone where it does not", () => {
    const card = { ...DROVER, carburettorType: read("mechanical" as const) };
    const carburettors = [{ name: "c", settings: { ...AS_FOUND, slideCutawayMm: read(3) } }];
    const lean = (["pilot", "straight", "taper", "main"] as const).map((region) => ({
      region,
      value: region === "straight" ? -0.1 : 0,
      sigma: 0.02,
      samples: 1,
    }));
    const cut = (changes: TargetInput["changes"]) =>
      value(solve({ card, carburettors, changes, calibration: lean }), "slideCutawayMm");
    expect(cut([{ setting: "slideCutawayMm", change: "computed" }])).toBe(2.5);
    expect(cut([])).toBe(3);
  });
});

describe("a needle's height", () => {
  it("is computed with all else that the package fits", () => {
    const clip = { setting: "clipPosition", change: "computed" } as const;
    expect(value(solve({ changes: [clip] }), "clipPosition")).toBe(3);
    const rich = solve({ changes: [{ setting: "pilotJet", change: "set", value: 80 }, clip] });
    expect(value(rich, "clipPosition")).toBe(2);
  });
});

describe("a pilot jet", () => {
  it("is not asked for where nobody read it as found", () => {
    const { pilotJet: _, ...settings } = AS_FOUND;
    const c = solve({ carburettors: [{ name: "c", settings }], changes: [] });
    expect(c.pilotJet).toBeNull();
    expect(c.mainJet).not.toBeNull();
    expect(solve({ changes: [] }).pilotJet?.chosen.size).toBe(45);
  });

  // A greater float height is a lower level, which takes from the pilot's signal; the slide stays down, whatever holds it there.
  it("follows a new level in the bowl, and neither a spring's new coils nor new lift holes", () => {
    const carburettors = [{ name: "c", settings: { ...AS_FOUND, floatHeightMm: read(14) } }];
    const exact = (changes: TargetInput["changes"]) => solve({ carburettors, changes }).pilotJet?.exact ?? 0;
    expect(exact([])).toBeCloseTo(45, 4);
    expect(exact([{ setting: "floatHeightMm", change: "set", value: 16 }])).toBeGreaterThan(45.2);
    expect(exact([{ setting: "springCoils", change: "set", value: 18 }])).toBe(exact([]));
    expect(exact([{ setting: "springLengthMm", change: "set", value: 100 }])).toBe(exact([]));
    expect(exact([{ setting: "liftHoleCount", change: "set", value: 2 }])).toBe(exact([]));
  });
});

describe("a mixture screw", () => {
  // Common practice, no source: freer breathing starts a quarter turn further out.
  it("is fitted where it starts when the package asks for it, and stays as found when it does not", () => {
    const open = { setting: "airboxOpeningMm", change: "set", value: 47 } as const;
    const asked = solve({ changes: [open, { setting: "mixtureScrewTurns", change: "computed" }] });
    expect([asked.screwStart?.value, asked.after.settings.mixtureScrewTurns]).toEqual([2, 2]);
    const left = solve({ changes: [open] });
    expect([left.screwStart?.value, left.after.settings.mixtureScrewTurns]).toEqual([2, 1.75]);
  });

  it("is asked for as found only where neither sheet nor card says where it stood", () => {
    const { mixtureScrewTurns: _, ...settings } = AS_FOUND;
    const { deliveredScrewTurns: __, ...bare } = DROVER;
    const asked = (card: TargetInput["card"]) =>
      targetSettings({
        ...OPENED,
        card,
        carburettors: [{ name: "c", settings }],
        changes: [{ setting: "mixtureScrewTurns", change: "computed" }],
      }).warnings.map((w) => w.message);
    const said = "Mixture screw is to be computed, but is not known as found.";
    expect(asked(bare)).toContain(said);
    expect(asked(DROVER)).not.toContain(said);
  });
});

describe("what is fitted after the work", () => {
  it("is what was found where nothing changes, and there is nothing to warn of", () => {
    const sheet = targetSettings({ ...OPENED, changes: [] });
    expect(sheet.warnings).toEqual([]);
    expect(sheet.carburettors[0]?.after.settings).toEqual(sheet.carburettors[0]?.before.settings);
  });

  it("says nothing of a needle raised by a difference where there is none", () => {
    expect(solve({}).after).not.toHaveProperty("raisedMm");
  });
});

describe("jets that the first carburettor takes", () => {
  const unlike = [
    { name: "left", settings: AS_FOUND },
    { name: "right", settings: { ...AS_FOUND, idleSpeedRpm: read(1350) } },
  ];
  const jet = (size: number, free: number, more: Partial<JetOnHand> = {}): JetOnHand => ({
    setting: "mainJet",
    convention: "bore",
    size,
    free,
    orderable: true,
    ...more,
  });
  const both = (jets: readonly JetOnHand[], changes = OPENED.changes) =>
    targetSettings({ ...OPENED, carburettors: unlike, jets, changes }).carburettors;

  it("are no longer free for the second: that size alone, of its own kind and numbering", () => {
    const [, right] = both([jet(147.5, 3), jet(145, 2), jet(147.5, 2, { setting: "pilotJet" })]);
    expect(right?.mainJet?.chosen).toMatchObject({ size: 147.5, free: 2 });
    expect(right?.mainJet?.runnerUp).toMatchObject({ size: 145, free: 2 });
    expect(right?.pilotJet?.nearestInDrawer).toMatchObject({ size: 147.5, free: 2 });
    const [, last] = both([jet(147.5, 1), jet(147.5, 1, { convention: "flow" })]);
    expect(last?.mainJet?.nearestInDrawer).toMatchObject({ size: 147.5, convention: "flow", free: 1 });
  });

  it("are taken in their own numbering, and never below none", () => {
    const flow = both([jet(214, 1, { convention: "flow" })]);
    expect(flow.map((c) => c.mainJet?.chosen.free)).toEqual([1, 0]);
    const none = both([jet(145, 0)]);
    expect(none.map((c) => c.mainJet?.chosen.free)).toEqual([0, 0]);
  });

  it("are none where the fitted jet stays, computed or not", () => {
    const free = (changes: TargetInput["changes"]) =>
      both([jet(140, 1)], changes).map((c) => c.mainJet?.chosen.free);
    expect(free([{ setting: "mainJet", change: "computed" }])).toEqual([1, 1]);
    expect(free([])).toEqual([1, 1]);
    expect(free([{ setting: "mainJet", change: "set", value: 145 }])).toEqual([0, 0]);
  });

  it("are pilot jets as well, for as many carburettors as are found alike", () => {
    const three = [
      ...unlike.slice(0, 1),
      { ...unlike[0], name: "middle" },
      ...unlike.slice(1),
    ] as typeof unlike;
    const sheet = targetSettings({
      ...OPENED,
      carburettors: three,
      jets: [jet(47.5, 3, { setting: "pilotJet" })],
      changes: [{ setting: "pilotJet", change: "set", value: 47.5 }],
    });
    expect(sheet.carburettors.map((c) => c.pilotJet?.chosen.free)).toEqual([3, 3, 1]);
  });
});
