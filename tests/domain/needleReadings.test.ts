import { describe, expect, it } from "vitest";
import { needleDiameterMm } from "@/lib/domain/tuning/needle";
import { recordWithReadings, UNREAD_NEEDLE } from "@/lib/domain/tuning/needleReadings";
import { computedAt, type NeedleRecord, needleOf, stationsBeside } from "@/lib/domain/tuning/needleRecord";
import type { NeedleShape } from "@/lib/domain/tuning/targetTypes";

/** Straight to 26 mm below the shoulder, then a cone of 3 hundredths a millimetre; slide shut, the jet lies at 20 mm. */
const DELIVERED: NeedleShape = {
  straightMm: 2.5,
  straightLiftMm: 6,
  clipAt: 3,
  clipStepMm: 1,
  clips: 5,
  planeMm: 20,
  tapers: [{ lengthMm: 30, includedAngleDeg: (2 * Math.atan(0.015) * 180) / Math.PI }],
};
const card = { needle: { value: DELIVERED, how: "read" } } as const;
const unread = { record: UNREAD_NEEDLE, measured: true };
const at = (stationMm: number | null, diameterMm: number, stepMm: number | null = 0.01) => ({
  stationMm,
  diameterMm,
  stepMm,
});

describe("a needle's diameter read on a card", () => {
  it("stands at its station with the instrument's step, and the rest stays as the model card says", () => {
    const record = recordWithReadings(unread, [at(36, 2.17)], DELIVERED);
    expect(record.stations).toEqual([{ atMm: 36, diameterMm: 2.17 }]);
    expect(record.micrometerMm).toBe(0.01);
    const { shape } = needleOf(record, card);
    // Lift is the distance below the shoulder less the jet's 20 mm; delivered: 2.50 at 26 mm, 1.60 at 56 mm.
    expect(shape && needleDiameterMm(shape, 16)).toBeCloseTo(2.17, 9);
    expect(shape && needleDiameterMm(shape, 3)).toBeCloseTo(2.5, 9);
    expect(shape && needleDiameterMm(shape, 36)).toBeCloseTo(1.6, 9);
  });
  it("of the straight part stands for all of that part, as far as anybody knows how far it goes", () => {
    expect(recordWithReadings(unread, [at(null, 2.48)], DELIVERED).stations).toEqual([
      { atMm: 26, diameterMm: 2.48 },
    ]);
    const known: NeedleRecord = {
      ...UNREAD_NEEDLE,
      stations: [
        { atMm: 10, diameterMm: 2.5 },
        { atMm: 24, diameterMm: 2.5 },
        { atMm: 36, diameterMm: 2.2 },
      ],
    };
    expect(
      recordWithReadings({ record: known, measured: true }, [at(null, 2.47)], undefined).stations,
    ).toEqual([
      { atMm: 10, diameterMm: 2.47 },
      { atMm: 24, diameterMm: 2.47 },
      { atMm: 36, diameterMm: 2.2 },
    ]);
    const nowhere = recordWithReadings(unread, [at(null, 2.48)], undefined);
    expect(nowhere.stations).toEqual([]);
    expect(nowhere.note).toBe("Straight part 2.48 mm; how far it goes is not measured.");
    expect(needleOf(nowhere, {}).shape).toBeNull();
  });
  it("of the straight part is not put where only the taper was read", () => {
    const taper = recordWithReadings(unread, [at(36, 2.17)], DELIVERED);
    expect(
      recordWithReadings({ record: taper, measured: true }, [at(null, 2.48)], DELIVERED).stations,
    ).toEqual([
      { atMm: 26, diameterMm: 2.48 },
      { atMm: 36, diameterMm: 2.17 },
    ]);
  });
  it("takes the place of what stood there, and the coarser instrument is the record's", () => {
    const first = recordWithReadings(unread, [at(36, 2.17, 0.001), at(46, 1.88, 0.001)], DELIVERED);
    const again = recordWithReadings({ record: first, measured: true }, [at(36, 2.16, 0.01)], DELIVERED);
    expect(again.stations).toEqual([
      { atMm: 36, diameterMm: 2.16 },
      { atMm: 46, diameterMm: 1.88 },
    ]);
    expect(again.micrometerMm).toBe(0.01);
  });
  it("leaves a target's other stations marked as computed", () => {
    const target: NeedleRecord = {
      ...UNREAD_NEEDLE,
      origin: "reshaped",
      stations: [
        { atMm: 26, diameterMm: 2.46 },
        { atMm: 46, diameterMm: 1.86 },
      ],
    };
    const made = recordWithReadings({ record: target, measured: false }, [at(36, 2.15)], DELIVERED);
    expect(made.stations).toEqual([
      { atMm: 26, diameterMm: 2.46, computed: true },
      { atMm: 36, diameterMm: 2.15 },
      { atMm: 46, diameterMm: 1.86, computed: true },
    ]);
    expect(stationsBeside([made])).toEqual([36]);
    expect([36, 40, 46].map((mm) => computedAt(made, mm))).toEqual([false, true, true]);
  });
});
