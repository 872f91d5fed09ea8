import { describe, expect, it } from "vitest";
import { partedReading, readingIn, readingUnits } from "@/lib/domain/sheets/typedReading";

const hole = { name: "Lift hole", unit: "mm", low: 2.75, measures: "liftHoleMm" };

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
});
