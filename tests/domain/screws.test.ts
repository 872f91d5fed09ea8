import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { COARSE_PITCH, DRIVES, HEADS, type Screw, screwFor, screwsFor } from "@/lib/domain/stock/screws";
import { FindScrewSchema } from "@/lib/schemas/screws";

const M4: Screw = { diameterMm: 4, pitchMm: 0.7, lengthMm: 12, head: "pan", drive: "cross, JIS" };
const screw = fc.record<Screw>({
  diameterMm: fc.constantFrom(3, 4, 5),
  pitchMm: fc.constantFrom(0.5, 0.7, 0.8),
  lengthMm: fc.integer({ min: 4, max: 40 }),
  head: fc.constantFrom(...HEADS),
  drive: fc.constantFrom(...DRIVES),
});

describe("a screw found from a worn one", () => {
  it("has its thread, whatever else differs, and every difference is said", () => {
    expect(screwFor(M4, { ...M4, pitchMm: 0.5 })).toBeNull();
    expect(screwFor(M4, { ...M4, diameterMm: 5 })).toBeNull();
    expect(screwFor(M4, { ...M4, lengthMm: 12.4 })).toEqual({ fit: "same", differs: [] });
    const other = screwFor(M4, { ...M4, lengthMm: 16, drive: "hexagon socket" });
    expect(other).toEqual({
      fit: "fits",
      differs: ["4 mm longer: look that it does not bottom", "drive hexagon socket"],
    });
    // By hand: 3.5 mm at a pitch of 0.7 are five turns.
    expect(screwFor(M4, { ...M4, lengthMm: 8.5 })?.differs).toEqual(["3.5 mm shorter: 5 turns fewer hold"]);
  });

  it("comes nearest first, and never of another thread", () => {
    fc.assert(
      fc.property(screw, fc.array(screw, { maxLength: 20 }), (worn, stock) => {
        const found = screwsFor(
          worn,
          stock.map((one) => ({ screw: one })),
        );
        expect(found.every((one) => one.screw.pitchMm === worn.pitchMm)).toBe(true);
        const many = found.map((one) => one.differs.length);
        expect(many).toEqual(many.toSorted((a, b) => a - b));
        expect(found.filter(({ fit }) => fit === "same").every(({ differs }) => differs.length === 0)).toBe(
          true,
        );
      }),
    );
  });

  // ISO 261: coarse pitches.
  it("has the coarse pitch of its size where none is typed, and is asked for it where there is none", () => {
    expect([COARSE_PITCH["3"], COARSE_PITCH["4"], COARSE_PITCH["6"]]).toEqual([0.5, 0.7, 1]);
    const typed = { diameterMm: "4", pitchMm: "", lengthMm: "12", head: "pan", drive: "slot" };
    expect(FindScrewSchema.parse(typed)).toMatchObject({ pitchMm: 0.7, lengthMm: 12 });
    expect(FindScrewSchema.safeParse({ ...typed, diameterMm: "7" }).error?.issues[0]?.path).toEqual([
      "pitchMm",
    ]);
  });
});
