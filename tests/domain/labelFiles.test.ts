import fc from "fast-check";
import { expect, it } from "vitest";
import { LABELS_A_FILE, labelFiles } from "@/lib/domain/stock/labelFiles";

const A_SHEET = 24;

it("labels are printed in files that follow one another, none twice and none left out", () => {
  fc.assert(
    fc.property(fc.nat(3000), fc.integer({ min: 1, max: A_SHEET }), (count, start) => {
      const files = labelFiles(count, start);
      expect(files.reduce((sum, file) => sum + file.to - file.from, 0)).toBe(count);
      expect(files.every((file, at) => file.from === (files[at - 1]?.to ?? 0))).toBe(true);
      expect(files.every((file) => file.to > file.from && file.to - file.from <= LABELS_A_FILE)).toBe(true);
    }),
  );
});

it("every file but the last ends on a full sheet, counted from the first free place", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 3000 }), fc.integer({ min: 1, max: A_SHEET }), (count, start) => {
      for (const file of labelFiles(count, start).slice(0, -1))
        expect((file.start - 1 + file.to - file.from) % A_SHEET).toBe(0);
    }),
  );
  expect(labelFiles(1000, 5)).toEqual([
    { from: 0, to: 476, start: 5 },
    { from: 476, to: 956, start: 1 },
    { from: 956, to: 1000, start: 1 },
  ]);
});
