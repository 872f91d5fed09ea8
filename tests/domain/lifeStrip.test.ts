import { describe, expect, it } from "vitest";
import { type LifeEvent, placed } from "@/lib/domain/sheets/lifeStrip";

const event = (at: number, km: number | null = null): LifeEvent => ({
  kind: "photo",
  at,
  km,
  text: "",
  jobId: null,
});

describe("the life of a bike by distance", () => {
  it("has each event where it was read, else between the readings around it, else nowhere", () => {
    const readings = [
      { at: 300, km: 30_000 },
      { at: 100, km: 10_000 },
      { at: 400, km: 50 },
    ];
    const found = placed(
      [event(200), event(50), event(100), event(350), event(150, 12_345), event(500)],
      readings,
    );
    expect(found.map((one) => [one.at, one.placedKm, one.estimated])).toEqual([
      [50, null, false],
      [100, 10_000, false],
      [150, 12_345, false],
      [200, 20_000, true],
      // Between the old counter and the new one.
      [350, null, false],
      [500, null, false],
    ]);
  });
});
