import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { z } from "zod";
import {
  inkOf,
  MOST_SIGNATURE_TEXT,
  SIGNATURE,
  type SignatureStroke,
  signaturePath,
  signatureStrokes,
  signatureText,
  withPoint,
} from "@/lib/domain/signature/strokes";
import { SIGNATURE_FIELDS } from "@/lib/schemas/signature";

const moves = fc.array(
  fc.record({
    x: fc.double({ min: -900, max: 1500, noNaN: true }),
    y: fc.double({ min: -900, max: 900, noNaN: true }),
    begins: fc.boolean(),
  }),
  { maxLength: 300 },
);
const drawn = (made: readonly { x: number; y: number; begins: boolean }[]) =>
  made.reduce<readonly SignatureStroke[]>((so, { x, y, begins }) => withPoint(so, [x, y], begins), []);

describe("A signature on the glass", () => {
  it("is the same strokes after it was written as text and read again, wherever a finger went", () => {
    fc.assert(
      fc.property(moves, (made) => {
        const strokes = drawn(made);
        expect(signatureStrokes(signatureText(strokes))).toEqual(strokes);
      }),
    );
  });

  it("stays on its sheet and within its bounds, however long somebody draws", () => {
    let strokes: readonly SignatureStroke[] = [];
    for (let at = 0; at < SIGNATURE.mostPoints * 2; at++)
      strokes = withPoint(strokes, [(at * 37) % 800, (at * 53) % 400], at % 20 === 0);
    expect(strokes.length).toBeLessThanOrEqual(SIGNATURE.mostStrokes);
    expect(strokes.flat().length).toBeLessThanOrEqual(SIGNATURE.mostPoints);
    expect(strokes.flat().every(([x, y]) => x <= SIGNATURE.width && y <= SIGNATURE.height)).toBe(true);
    const text = signatureText(strokes);
    expect(text.length).toBeLessThanOrEqual(MOST_SIGNATURE_TEXT);
    expect(signatureStrokes(text)).toEqual(strokes);
  });

  it("drops points that say nothing: within three units of the one before", () => {
    const strokes = drawn([
      { x: 10, y: 10, begins: true },
      { x: 12, y: 10, begins: false },
      { x: 13, y: 10, begins: false },
    ]);
    expect(strokes).toEqual([
      [
        [10, 10],
        [13, 10],
      ],
    ]);
    // Three, four, five.
    expect(
      inkOf([
        [
          [0, 0],
          [30, 40],
        ],
      ]),
    ).toBe(50);
  });

  it("is drawn as one curve for each stroke, a dot as a line of no length", () => {
    expect(signaturePath([[[5, 5]]])).toBe("M5 5L5 5");
    expect(
      signaturePath([
        [
          [0, 0],
          [10, 0],
          [20, 10],
        ],
      ]),
    ).toBe("M0 0Q10 0 15 5L20 10");
  });

  it("is refused as text where it is none of ours: other marks, off the sheet, too many strokes or points", () => {
    const points = Array.from({ length: SIGNATURE.mostPoints + 1 }, () => "1,1");
    for (const text of [
      "M0 0",
      "1,2;",
      " 1,2",
      "601,1",
      "1,201",
      "1.5,2",
      "-1,2",
      Array.from({ length: SIGNATURE.mostStrokes + 1 }, () => "1,1").join(";"),
      points.join(" "),
      '1,1"/><script>',
    ])
      expect(signatureStrokes(text), text.slice(0, 20)).toBeNull();
    expect(signatureStrokes("")).toEqual([]);
  });

  it("needs a name and takes no dot for a signature; the name alone is one, typed", () => {
    const Signed = z.object(SIGNATURE_FIELDS);
    const fields = (given: unknown) =>
      Signed.safeParse(given).error?.issues.map(({ path }) => path.join(".")) ?? [];
    expect(fields({ signedBy: "Ida Brekke" })).toEqual([]);
    expect(fields({ signedBy: " ", signature: "0,0 300,100" })).toEqual(["signedBy"]);
    expect(fields({ signedBy: "Ida Brekke", signature: "10,10" })).toEqual(["signature"]);
    expect(fields({ signedBy: "Ida Brekke", signature: "x" })).toEqual(["signature"]);
    expect(fields({ signedBy: "Ida Brekke", signature: "0,0 300,100" })).toEqual([]);
  });
});
