import { createRequire } from "node:module";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { convert, fromSi, toSi } from "../../lib/domain/units/convert";
import { SYSTEM_UNITS, shownUnit } from "../../lib/domain/units/systems";
import { type Pascal, SI_UNITS, UNITS, type Unit } from "../../lib/domain/units/units";

// The package carries no types of its own.
const Qty: new (value: number, unit: string) => { to(unit: string): { scalar: number } } = createRequire(
  import.meta.url,
)("js-quantities");
const ALL = Object.keys(UNITS) as Unit[];

describe("units at the edges", () => {
  // js-quantities 1.8.0 is an independent library; its names beside ours.
  it.each<[Unit, string, string]>([
    ["degC", "tempC", "tempK"],
    ["degF", "tempF", "tempK"],
    ["um", "um", "m"],
    ["in", "in", "m"],
    ["ft", "ft", "m"],
    ["mi", "mi", "m"],
    ["in2", "in2", "m2"],
    ["in3", "in3", "m3"],
    ["ml", "ml", "m3"],
    ["galUS", "gal", "m3"],
    ["flozUS", "floz", "m3"],
    ["lb", "lb", "kg"],
    ["oz", "oz", "kg"],
    ["inHg", "inHg", "Pa"],
    ["mmHg", "mmHg", "Pa"],
    ["psi", "psi", "Pa"],
    ["bar", "bar", "Pa"],
    ["lbf", "lbf", "N"],
    ["lbfft", "lbf*ft", "N*m"],
    ["lbfin", "lbf*in", "N*m"],
    ["hp", "hp", "W"],
    ["km/h", "km/h", "m/s"],
    ["mph", "mph", "m/s"],
    ["lbf/in", "lbf/in", "N/m"],
    ["deg", "deg", "rad"],
    ["h", "h", "s"],
    ["rpm", "rpm", "rad/s"],
  ])("agrees with js-quantities on %s", (unit, theirs, si) => {
    const expected = new Qty(12.5, theirs).to(si).scalar;
    expect(Math.abs(toSi(12.5, unit) / expected - 1)).toBeLessThan(2e-6);
  });

  // NIST SP 811 (2008) appendix B.8, printed to seven digits.
  it.each<[Unit, number]>([
    ["inHg", 3386.389],
    ["psi", 6894.757],
    ["lbfft", 1.355818],
    ["hp", 745.6999],
    ["PS", 735.4988],
    ["lbf/in", 175.1268],
    ["galUK", 4.54609e-3],
    ["kgfm", 9.80665],
    ["mph", 0.44704],
  ])("holds the printed factor of %s", (unit, si) => {
    expect(Math.abs(toSi(1, unit) / si - 1)).toBeLessThan(1e-6);
  });

  it("knows the fixed points of the temperature scales", () => {
    expect(toSi(0, "degC")).toBeCloseTo(273.15, 10);
    expect(convert(212, "degF", "degC")).toBeCloseTo(100, 10);
    expect(convert(-40, "degF", "degC")).toBeCloseTo(-40, 10);
  });

  it("gives a typed value back as it was typed, in every unit", () => {
    fc.assert(
      fc.property(fc.constantFrom(...ALL), fc.integer({ min: 0, max: 5_000_000 }), (unit, milli) => {
        const typed = milli / 1000;
        expect(Number(fromSi(toSi(typed, unit), unit).toFixed(3))).toBe(typed);
      }),
    );
  });

  it("refuses what is no number and what is colder than absolute zero", () => {
    expect(() => toSi(Number.NaN, "mm")).toThrow("no number");
    expect(() => toSi(-300, "degC")).toThrow("temperature is -300");
    expect(() => toSi(-500, "degF")).toThrow("-459.67");
  });

  it("keeps quantities apart when compiling", () => {
    const pressure: Pascal = toSi(1013.25, "hPa");
    expect(pressure).toBe(101_325);
    // @ts-expect-error a pressure is not shown in millimetres
    expect(() => fromSi(pressure, "mm")).not.toThrow();
    // @ts-expect-error inches do not become degrees
    expect(() => convert(1, "in", "degC")).not.toThrow();
  });

  it("has one SI unit for every quantity and a shown unit for every use in every system", () => {
    for (const unit of ALL) expect(SI_UNITS).toHaveProperty(UNITS[unit].quantity);
    for (const choice of Object.values(SYSTEM_UNITS)) {
      expect(UNITS[choice.airPressure.unit].quantity).toBe("pressure");
      expect(UNITS[choice.smallLength.unit].sign).toBe("mm");
    }
    expect(shownUnit("us", "airPressure")).toEqual({ unit: "inHg", decimals: 2 });
    expect(shownUnit("metric", "altitude").unit).toBe("m");
  });
});
