import { describe, expect, it } from "vitest";
import { offeredUnits, partedReading, readOn } from "@/lib/domain/sheets/readingScale";
import { readingIn, scaleOf } from "@/lib/domain/sheets/typedReading";
import { namesOf, unitNamed } from "@/lib/domain/units/unitNamed";
import { UNITS, type Unit } from "@/lib/domain/units/units";

const hole = { name: "Lift hole", unit: "mm", low: 2.75, measures: "liftHoleMm" };

const readingUnits = (unit: string) => offeredUnits(scaleOf({ unit, low: null, measures: "" }));

describe("a reading as typed", () => {
  it("is a number with a point or a comma, and may carry its unit", () => {
    expect(partedReading("48")).toEqual({ value: 48, unit: "" });
    expect(partedReading(" 48 mm ")).toEqual({ value: 48, unit: "mm" });
    expect(partedReading("1,9in")).toEqual({ value: 1.9, unit: "in" });
    expect(partedReading("1 400 rpm")).toEqual({ value: 1400, unit: "rpm" });
    for (const text of ["", "wide", "mm 48", "4 8", "1.2.3"]) expect(partedReading(text)).toBeNull();
  });

  it("is kept in the unit of its hold point", () => {
    // 1 in = 25.4 mm exactly (international yard and pound, 1959); 1 inHg = 3.386389 kPa (NIST SP 811, appendix B).
    expect(readingIn(hole, 0.11, "in")).toEqual({ value: 2.794 });
    const vacuum = { name: "Vacuum", unit: "kPa", low: null, measures: "" };
    const found = readingIn(vacuum, 1, "inHg");
    expect("value" in found && found.value).toBeCloseTo(3.386389, 5);
    expect(readingIn(hole, 2.8, "mm")).toEqual({ value: 2.8 });
  });

  it("is refused below nothing, in a unit of something else, and where its setting cannot be so", () => {
    expect(readingIn(hole, -2.8, "")).toMatchObject({ problem: expect.stringContaining("below nothing") });
    expect(readingIn(hole, 2.8, "kPa")).toMatchObject({ problem: expect.stringContaining("no unit") });
    expect(readingIn(hole, 28, "")).toMatchObject({ problem: expect.stringContaining("from 0.5 to 6") });
    const cold = { name: "Air", unit: "°C", low: null, measures: "" };
    expect(readingIn(cold, -5, "")).toEqual({ value: -5 });
  });

  it("offers units of the same kind", () => {
    expect(readingUnits("mm")).toEqual(["mm", "in"]);
    expect(readingUnits("rpm")).toEqual([]);
    expect(readingUnits("turns out")).toEqual([]);
  });

  it("is judged by its scale alone as by the table of all units, whichever way its unit is written", () => {
    const units = Object.keys(UNITS) as Unit[];
    const texts = units.flatMap((unit) => [UNITS[unit].sign, unit, unit.toUpperCase(), ...namesOf(unit)]);
    for (const own of units) {
      const { sign, quantity } = UNITS[own];
      const scale = scaleOf({ unit: sign, low: -1000, measures: "" });
      for (const text of texts) {
        const named = unitNamed(text);
        const fits = named !== undefined && UNITS[named].quantity === quantity;
        const read = readOn(scale, sign, 300, text);
        expect([own, text, read === "unit"]).toEqual([own, text, !fits]);
        if (named === own) expect([own, text, read]).toEqual([own, text, 300]);
      }
    }
  });

  it("is judged in a browser by what the hold point brings: its few units and what can be", () => {
    expect(scaleOf(hole)).toMatchObject({ offered: 2, below: false, bounds: [0.5, 6] });
    expect(readOn(scaleOf(hole), "mm", 0.3, "cm")).toBe(3);
    expect(readOn(scaleOf(hole), "mm", 28, "")).toBe("bounds");
    expect(readOn(scaleOf({ unit: "", low: null, measures: "" }), "", 12, "mm")).toBe("unit");
  });
});
