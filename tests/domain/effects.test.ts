import fc from "fast-check";
import { expect, it } from "vitest";
import { compared, type EffectReading, median, overBikes } from "@/lib/domain/procedures/effects";
import { EffectSchema } from "@/lib/schemas/effects";

const noise = (jobId: number, side: "before" | "after", value: number, rpm = 4000): EffectReading => ({
  jobId,
  side,
  kind: "noise",
  value,
  under: { distanceM: 0.5, rpm },
});

it("lays only readings of like conditions beside each other, each side by its middle value", () => {
  const found = compared([
    noise(1, "before", 92),
    noise(1, "before", 96),
    noise(1, "before", 93),
    noise(1, "after", 95),
    noise(1, "after", 96, 5000),
  ]);
  expect(found).toHaveLength(2);
  expect(found[0]).toMatchObject({
    before: { value: 93, count: 3 },
    after: { value: 95, count: 1 },
    difference: 2,
  });
  expect(found[1]).toMatchObject({ before: null, difference: null });
});

it("counts each bike once, by its newest job with both sides, and those of one side not at all", () => {
  const rows = [
    ...[noise(1, "before", 90), noise(1, "after", 99)],
    ...[noise(2, "before", 90), noise(2, "after", 92)],
    ...[noise(3, "before", 90), noise(3, "after", 96)],
    noise(4, "before", 90),
  ];
  const bike = { 1: 7, 2: 7, 3: 8, 4: 9 } as Record<number, number>;
  const [over] = overBikes(compared(rows).map((one) => ({ ...one, bikeId: bike[one.jobId] ?? 0 })));
  expect(over?.found).toMatchObject({ median: 4, low: 2, high: 6, bikes: 2 });
  expect(over?.counted.map((one) => [one.bikeId, one.jobId])).toEqual([
    [7, 2],
    [8, 3],
  ]);
});

it("has a median with as many values on either side, whatever their order", () => {
  expect(median([3, 1, 2])).toBe(2);
  expect(median([4, 1, 3, 2])).toBe(2.5);
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -999, max: 999 }), { minLength: 1 }), (values) => {
      const middle = median(values);
      const below = values.filter((one) => one < middle).length;
      const above = values.filter((one) => one > middle).length;
      expect(below).toBeLessThanOrEqual(values.length / 2);
      expect(above).toBeLessThanOrEqual(values.length / 2);
      expect(median(values.toReversed())).toBe(middle);
    }),
  );
});

it("computes fuel use from the owner's fills, and asks each kind for what makes it comparable", () => {
  const form = (more: object) => ({ bikeId: "1", jobId: "1", side: "before", ...more });
  // 24.6 l on 410 km: 6 l/100 km.
  expect(EffectSchema.parse(form({ kind: "fuel", litres: "24,6", km: "410" }))).toMatchObject({
    value: 6,
    under: { litres: 24.6, km: 410 },
  });
  const missing = (more: object) =>
    EffectSchema.safeParse(form(more)).error?.issues.map((one) => one.path.join(".")) ?? [];
  expect(missing({ kind: "noise", value: "94" })).toEqual(["distanceM", "rpm", "instrument"]);
  expect(missing({ kind: "power", value: "40", rpm: "7000", instrument: "Drum" })).toEqual(["standard"]);
  expect(missing({ kind: "lambda", value: "0.9" })).toEqual(["throttle"]);
  expect(missing({ kind: "fuel" })).toEqual(["litres", "km", "litres"]);
  expect(missing({ kind: "idle" })).toEqual(["value"]);
  expect(missing({ kind: "starting", value: "300" })).toEqual(["value"]);
  expect(missing({ kind: "starting", value: "2.5" })).toEqual([]);
});
