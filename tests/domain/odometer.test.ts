import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { odometerQuestion } from "@/lib/domain/sheets/odometer";
import { distanceUnit, keptKm, shownDistance } from "@/lib/domain/units/distance";

const plain = (text: string | null) => text?.replaceAll("\u202f", " ");

describe("An odometer in a shop that reads miles", () => {
  it("keeps 15,000 miles as 24,140 km: a mile is 1,609.344 m (international yard and pound agreement, 1959)", () => {
    expect(distanceUnit("uk")).toBe("mi");
    expect(keptKm(15_000, "uk")).toBe(24_140);
    expect(shownDistance(24_140, "uk")).toBe(15_000);
    expect(keptKm(15_000, "metric")).toBe(15_000);
    expect(keptKm(null, "us")).toBeNull();
  });

  it("gives every whole mile back as it was typed", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1_200_000 }),
        fc.constantFrom("uk", "us", "metric"),
        (typed, units) => {
          expect(shownDistance(keptKm(typed, units) ?? -1, units)).toBe(typed);
        },
      ),
    );
  });

  it("is asked about in the miles that the person typed", () => {
    const before = { km: 24_140, at: 0 };
    expect(plain(odometerQuestion(2_414, before, 0, "uk"))).toBe(
      "1 500 mi is lower than the 15 000 mi read before.",
    );
    expect(plain(odometerQuestion(241_402, before, 0, "us"))).toBe(
      "150 000 mi is 135 000 mi more than was read before.",
    );
    expect(plain(odometerQuestion(2_414, before, 0))).toBe(
      "2 414 km is lower than the 24 140 km read before.",
    );
    expect(odometerQuestion(24_145, before, 0, "uk")).toBeNull();
  });
});
