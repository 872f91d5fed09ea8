import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BOARD_STEP, movedByKey, type Placed, samePlace } from "@/lib/domain/schedule/boardMove";

const ROWS = { bays: [4, 9], people: [1, 2, 7] };
const START: Placed = { day: "2026-10-03", from: 480, minutes: 120, bayId: 4, staffId: 2 };
const go = (key: string, shift = false, among: "bays" | "people" = "bays", from = START) =>
  movedByKey(from, { key, shift }, among, ROWS);

describe("A booking moved by keys", () => {
  it("goes a quarter of an hour with left and right, and gets longer and shorter with Shift", () => {
    expect(go("ArrowRight")).toEqual({ ...START, from: 495 });
    expect(go("ArrowLeft")).toEqual({ ...START, from: 465 });
    expect(go("ArrowRight", true)).toEqual({ ...START, minutes: 135 });
    expect(go("ArrowLeft", true)).toEqual({ ...START, minutes: 105 });
    // A length that came from a plan gets onto the steps.
    expect(go("ArrowRight", true, "bays", { ...START, minutes: 47 })?.minutes).toBe(60);
  });

  it("goes to the next bay or the next person, by the rows it is looked at in, and stays at the last", () => {
    expect(go("ArrowDown")).toEqual({ ...START, bayId: 9 });
    expect(go("ArrowUp")).toEqual(START);
    expect(go("ArrowDown", false, "people")).toEqual({ ...START, staffId: 7 });
    expect(go("ArrowUp", false, "people")).toEqual({ ...START, staffId: 1 });
  });

  it("goes by days at the same time of the clock, over a change of it too; other keys do nothing", () => {
    expect(go("PageDown")).toEqual({ ...START, day: "2026-10-04" });
    expect(go("PageUp")).toEqual({ ...START, day: "2026-10-02" });
    for (const key of ["Enter", "Escape", "Tab", "a"]) expect(go(key)).toBeNull();
  });

  it("never leaves the board, whatever is pressed", () => {
    const press = fc.record({
      key: fc.constantFrom("ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "PageUp", "PageDown"),
      shift: fc.boolean(),
    });
    fc.assert(
      fc.property(
        fc.array(press, { maxLength: 200 }),
        fc.constantFrom("bays", "people"),
        (presses, among) => {
          let at = START;
          for (const one of presses) at = movedByKey(at, one, among, ROWS) ?? at;
          expect(at.from).toBeGreaterThanOrEqual(0);
          expect(at.from).toBeLessThan(24 * 60);
          expect(at.minutes).toBeGreaterThanOrEqual(BOARD_STEP);
          expect(ROWS.bays).toContain(at.bayId);
          expect(ROWS.people).toContain(at.staffId);
          expect(samePlace(at, { ...at })).toBe(true);
        },
      ),
    );
  });
});
