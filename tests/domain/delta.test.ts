import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Delta, deltaOf, type Plain, withDelta } from "@/lib/domain/delta";

const plain = fc.jsonValue({ maxDepth: 4 }) as fc.Arbitrary<Plain>;
/** Lists of rows with keys, as screens have them, some of them twice. */
const rows = fc.array(
  fc.record({
    key: fc.constantFrom("a", "b", "c", "d"),
    name: fc.string({ maxLength: 3 }),
    minor: fc.nat(5),
  }),
  { maxLength: 6 },
);

describe("what changed between two plain values", () => {
  it("made to the one before, gives the one after, whatever they are", () => {
    fc.assert(
      fc.property(plain, plain, (before, after) => {
        expect(withDelta(before, deltaOf(before, after))).toEqual(after);
      }),
    );
  });

  it("gives a list of rows as it is after, with rows gone, come, moved and changed", () => {
    fc.assert(
      fc.property(rows, rows, (before, after) => {
        expect(withDelta({ rows: before }, deltaOf({ rows: before }, { rows: after }))).toEqual({
          rows: after,
        });
      }),
    );
  });

  it("crosses as JSON", () => {
    fc.assert(
      fc.property(rows, rows, (before, after) => {
        const sent: Delta = JSON.parse(JSON.stringify(deltaOf(before, after)));
        expect(withDelta(before, sent)).toEqual(after);
      }),
    );
  });

  it("names only what changed, and leaves the rest the same objects", () => {
    const before = {
      price: { grossMinor: 100, lines: [{ key: "labour", minor: 80 }] },
      plan: { minutes: 30 },
    };
    const after = { price: { grossMinor: 90, lines: [{ key: "labour", minor: 80 }] }, plan: { minutes: 30 } };
    const delta = deltaOf(before, after);
    expect(delta).toEqual({ in: { price: { in: { grossMinor: { to: 90 } } } } });
    const made = withDelta(before, delta) as typeof before;
    expect(made.plan).toBe(before.plan);
    expect(made.price.lines).toBe(before.price.lines);
  });

  it("sends a row that moved as its place, and a row that changed as its fields", () => {
    const [a, b] = [
      { key: "a", name: "Main jet", minor: 420 },
      { key: "b", name: "Breather filter", minor: 960 },
    ];
    expect(deltaOf([a, b], [b, { ...a, minor: 840 }])).toEqual({
      rows: [1, [0, { in: { minor: { to: 840 } } }]],
    });
  });

  it("is refused by a value of another shape", () => {
    expect(() => withDelta("text", { in: { price: { to: 1 } } })).toThrow(TypeError);
    expect(() => withDelta([1], { rows: [3] })).toThrow(RangeError);
  });
});
