import { describe, expect, it } from "vitest";
import { airFromReading } from "@/lib/domain/air/weather";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { CarburettorTarget, NeedleShape, TargetInput } from "@/lib/domain/tuning/targetTypes";
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

describe("a pilot jet", () => {
  it("is not asked for where nobody read it as found", () => {
    const { pilotJet: _, ...settings } = AS_FOUND;
    const c = solve({ carburettors: [{ name: "c", settings }], changes: [] });
    expect(c.pilotJet).toBeNull();
    expect(c.mainJet).not.toBeNull();
    expect(solve({ changes: [] }).pilotJet?.chosen.size).toBe(45);
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
});
