import { describe, expect, it } from "vitest";
import { BIKE_PART_KEYS, partAt, placeOf, SIDES } from "@/lib/domain/arrival/damage";
import { BIKE_HEIGHT, motorcycle } from "@/lib/domain/arrival/motorcycle";
import { SHEET_WIDTH } from "@/lib/domain/procedures/drawing";
import { arrivalWords } from "@/lib/words/arrival";
import { LANGUAGES } from "@/lib/words/language";

/** Every x and y of path data of absolute M, L, H, V, C, Q, A and Z. */
function points(d: string): number[][] {
  return [...d.matchAll(/([MLCQA])([^A-Z]*)/g)].flatMap(([, command, rest = ""]) => {
    const numbers = rest
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    const pairs = command === "A" ? [numbers.slice(5)] : [];
    for (let at = 0; command !== "A" && at < numbers.length; at += 2) pairs.push(numbers.slice(at, at + 2));
    return pairs;
  });
}

describe("The drawing of a motorcycle", () => {
  it("lies on its sheet, on both sides, every part of it too", () => {
    for (const side of SIDES) {
      for (const [x = -1, y = -1] of motorcycle(side).strokes.flatMap(({ d }) => points(d)))
        expect(x >= 0 && x <= SHEET_WIDTH && y >= 0 && y <= BIKE_HEIGHT, `${side} ${x} ${y}`).toBe(true);
      for (const part of BIKE_PART_KEYS) {
        const [x, y] = placeOf(part, side, SHEET_WIDTH);
        expect(x > 0 && x < SHEET_WIDTH && y > 0 && y < BIKE_HEIGHT, part).toBe(true);
      }
    }
  });

  it("shows the right side as the left one seen from behind the sheet", () => {
    const [left, right] = SIDES.map((side) => motorcycle(side).strokes.flatMap(({ d }) => points(d)));
    expect(right).toHaveLength(left?.length ?? 0);
    for (const [at, [x = 0, y]] of (left ?? []).entries()) {
      expect(right?.[at]?.[0]).toBeCloseTo(SHEET_WIDTH - x, 1);
      expect(right?.[at]?.[1]).toBe(y);
    }
  });

  it("guesses the part whose middle is nearest to what was touched, on either side", () => {
    for (const side of SIDES)
      for (const part of BIKE_PART_KEYS) {
        const [x, y] = placeOf(part, side, SHEET_WIDTH);
        expect(partAt(x + 1, y - 1, side, SHEET_WIDTH)).toBe(part);
      }
  });

  it("numbers its marks, in the drawing and in the words that replace it", () => {
    const drawn = motorcycle("left", [
      { number: 1, x: 150, y: 60 },
      { number: 3, x: 104, y: 14 },
    ]);
    expect(drawn.labels.map(({ text }) => text)).toEqual(["1", "3"]);
    expect(drawn.labels.every(({ y }) => y > 12 && y < BIKE_HEIGHT)).toBe(true);
    expect(drawn.description).toContain("1, 3");
  });

  it("has a name for every part and every kind of damage in each language, no two alike", () => {
    for (const locale of LANGUAGES) {
      const { part, what, fuels } = arrivalWords(locale);
      for (const names of [Object.values(part), Object.values(what), fuels]) {
        expect(names.every((name) => name.length > 0)).toBe(true);
        expect(new Set(names).size).toBe(names.length);
      }
      expect(fuels).toHaveLength(9);
    }
  });
});
