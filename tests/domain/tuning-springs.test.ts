import { describe, expect, it } from "vitest";
import { cvSlide } from "@/lib/domain/tuning/airSide";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { springForceN } from "@/lib/domain/tuning/slide";
import { shapedSpring } from "@/lib/domain/tuning/springShape";
import { resolve } from "@/lib/domain/tuning/station";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import { AS_FOUND, DROVER, OPENED, PLAIN_AIR } from "./tuning-demo";

const known = (value: number) => ({ value, how: "read" as const });
/** The spring that the figures by hand below are of. */
const card = { ...DROVER, springFreeMm: known(112), springInstalledMm: known(80), springCoils: known(20) };
const found = { ...AS_FOUND, springLengthMm: known(112), springCoils: known(20) };
const sheetOf = (
  changes: typeof OPENED.changes,
  settings: (typeof OPENED.carburettors)[0]["settings"] = found,
) => targetSettings({ ...OPENED, card, carburettors: [{ name: "c", settings }], changes });
const solvedIn = (sheet: ReturnType<typeof sheetOf>) => {
  const [c] = sheet.carburettors;
  if (!c) throw new Error("no carburettor");
  return c;
};
/** Force (N) of the spring with the slide shut, of what is fitted. */
function closedForceN(state: ReturnType<typeof solvedIn>["after"]): number {
  const r = resolve(state, PLAIN_AIR);
  const slide = cvSlide(r.machine, r.now.settings);
  return slide.rateNPerM * (slide.freeM - slide.installedM);
}

describe("a spring with coils cut off", () => {
  it("is shorter and stiffer: 112 mm with 20 coils cut to 18 falls from 3.52 to 2.54 N (EN 13906-1, identity)", () => {
    const cut = solvedIn(sheetOf([{ setting: "springCoils", change: "set", value: 18 }]));
    expect(closedForceN(cut.before)).toBeCloseTo(3.52, 2);
    // 110 x 20/18 N/m over 112 x 18/20 - 80 mm.
    expect(closedForceN(cut.after)).toBeCloseTo(2.542, 3);
  });
  it("lets the slide rise sooner, so half throttle gets leaner", () => {
    const cut = solvedIn(sheetOf([{ setting: "springCoils", change: "set", value: 18 }]));
    const half = (state: typeof cut.after) => fuelCurve(state, PLAIN_AIR, 50).points[24]?.lambda ?? 0;
    expect(half(cut.after)).toBeGreaterThan(half(cut.before));
  });
  it("is the same spring whether the sheet says its coils or its length", () => {
    const coils = solvedIn(sheetOf([{ setting: "springCoils", change: "set", value: 18 }]));
    const length = solvedIn(sheetOf([{ setting: "springLengthMm", change: "set", value: 100.8 }]));
    expect(closedForceN(length.after)).toBeCloseTo(closedForceN(coils.after), 9);
    const said = (c: typeof coils, key: string) => c.settings.find((s) => s.key === key)?.value;
    expect(said(coils, "springLengthMm")).toBe(100.8);
    expect(said(length, "springCoils")).toBe(18);
  });
  it("is cut from what was found, not from the delivered one once more", () => {
    const short = { ...found, springLengthMm: known(100.8), springCoils: known(18) };
    const again = solvedIn(sheetOf([{ setting: "springCoils", change: "set", value: 17 }], short));
    expect(closedForceN(again.before)).toBeCloseTo(2.542, 3);
    expect(closedForceN(again.after)).toBeCloseTo(((110 * 20) / 17) * (0.112 * 0.85 - 0.08), 6);
  });
  it("with a length that its coils deny is refused, and one shorter than its place", () => {
    const both: typeof OPENED.changes = [
      { setting: "springCoils", change: "set", value: 18 },
      { setting: "springLengthMm", change: "set", value: 111 },
    ];
    expect(() => sheetOf(both)).toThrow(/18 coils is 101 mm long, not 111 mm/);
    expect(() => sheetOf([{ setting: "springLengthMm", change: "set", value: 78 }])).toThrow(
      /78\.0 mm is shorter than its place of 80\.0 mm/,
    );
  });
});

describe("a spring that is shorter than delivered", () => {
  type Settings = (typeof OPENED.carburettors)[0]["settings"];
  const short = (coils?: number): Settings => {
    const { springCoils: _, ...uncounted } = { ...found, springLengthMm: known(108) };
    return coils === undefined ? uncounted : { ...uncounted, springCoils: known(coils) };
  };
  const asFound = (settings: Settings) => solvedIn(sheetOf([], settings)).before;
  const notes = (state: ReturnType<typeof asFound>) =>
    resolve(state, PLAIN_AIR).machine.assumptions.map((a) => a.fact);

  it("with all its coils counted has sagged and is as stiff as it was: 110 N/m over 28 mm is 3.08 N (Hooke)", () => {
    expect(closedForceN(asFound(short(20)))).toBeCloseTo(3.08, 9);
    expect(notes(asFound(short(20))).join()).not.toContain("taken as cut");
  });
  it("with nobody's count is taken as cut, 110 x 112/108 N/m, and says so", () => {
    expect(closedForceN(asFound(short()))).toBeCloseTo(((110 * 112) / 108) * 0.028, 9);
    expect(notes(asFound(short()))).toContain(
      "Slide spring of 108 mm, 112 mm as delivered: taken as cut, nobody counted its coils",
    );
    expect(notes(asFound(found)).join()).not.toContain("taken as cut");
  });
  it("is cut from what it was: a sagged one keeps its rate for the cut, whether coils or length are said", () => {
    const cut = solvedIn(sheetOf([{ setting: "springCoils", change: "set", value: 18 }], short(20)));
    // 110 x 20/18 N/m over 108 x 18/20 - 80 mm.
    expect(closedForceN(cut.after)).toBeCloseTo(((110 * 20) / 18) * (0.0972 - 0.08), 9);
    const said = solvedIn(sheetOf([{ setting: "springLengthMm", change: "set", value: 97.2 }], short(20)));
    expect(closedForceN(said.after)).toBeCloseTo(closedForceN(cut.after), 9);
    expect(said.settings.find((s) => s.key === "springCoils")?.value).toBe(18);
  });
  it("is exchanged for a new one where it gets longer: the delivered spring's force and coils", () => {
    for (const settings of [
      short(20),
      short(),
      { ...found, springLengthMm: known(100.8), springCoils: known(18) },
    ]) {
      const renewed = solvedIn(sheetOf([{ setting: "springLengthMm", change: "set", value: 112 }], settings));
      expect(closedForceN(renewed.after)).toBeCloseTo(3.52, 9);
      expect(renewed.settings.find((s) => s.key === "springCoils")?.value).toBe(20);
    }
  });
  it("shows both cases while nobody counted and the work changes it, and none once they are counted", () => {
    const cases = (springCoils?: number, value = 112) => {
      const c = solvedIn(sheetOf([{ setting: "springLengthMm", change: "set", value }], short(springCoils)));
      return fuelCurve(c.after, PLAIN_AIR, 20);
    };
    const [sagged] = cases().cases;
    expect(sagged?.name).toBe("slide spring sagged to 108 mm, not cut");
    expect(sagged?.settle).toContain("Count");
    // The sagged spring holds the slide down less, so that the new one adds more: it is richer there than the other case.
    const middle = cases(20).points.map((p) => p.lambda);
    sagged?.lambda.forEach((lambda, i) => {
      expect(lambda).toBeCloseTo(middle[i] ?? 0, 9);
    });
    expect(cases(20).cases).toEqual([]);
    expect(cases(undefined, 108).cases).toEqual([]);
    const mixed = cases().points;
    expect(mixed.some((p, i) => Math.abs(Math.log(p.lambda / (sagged?.lambda[i] ?? 1))) > 1e-4)).toBe(true);
  });
});

describe("a spring's shape", () => {
  const shape = { freeMm: 112, installedMm: 80, coils: 20 };
  it("has its rate from wire and coil: Shigley's .037 in wire, .400 in coil, 10.5 coils is 723.5 N/m (from memory)", () => {
    const inch = 25.4;
    const made = shapedSpring({
      wireMm: 0.037 * inch,
      coilMm: 0.4 * inch,
      coils: 10.5,
      freeMm: 40,
      installedMm: 30,
      shearGPa: 11.85e6 * 6.894757e-6,
    });
    expect(made.rateNPerM / 723.5).toBeCloseTo(1, 2);
  });
  it("refuses what contradicts itself, by name", () => {
    expect(() => shapedSpring({ ...shape, rateNPerM: 110, wireMm: 6, coilMm: 20 })).toThrow(/pressed solid/);
    expect(() => shapedSpring({ ...shape, rateNPerM: 110, wireMm: 1.6, coilMm: 20 })).toThrow(/contradicts/);
    expect(() => shapedSpring({ ...shape, rateNPerM: 110, installedMm: 120 })).toThrow(
      /shorter than its place/,
    );
    expect(() => shapedSpring(shape)).toThrow(/rate is not known/);
  });
  it("with one inside another pushes with both, the short one from where it is reached", () => {
    const slide = { rateNPerM: 100, freeM: 0.11, installedM: 0.08, inner: { rateNPerM: 50, freeM: 0.07 } };
    expect(springForceN(slide, 0)).toBeCloseTo(3, 9);
    expect(springForceN(slide, 0.02)).toBeCloseTo(5 + 0.5, 9);
  });
});
