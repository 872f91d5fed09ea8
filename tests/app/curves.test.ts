import { describe, expect, it } from "vitest";
import { curveOf, curveText } from "@/app/_ui/curveText";
import { areaPath, linePath } from "@/app/_ui/paths";

/** A curve as the drawings have them: forty points in a band that widens. */
const CURVE = Array.from({ length: 41 }, (_, n) => {
  const y = 0.86 + 0.07 * Math.sin(n / 6) - 0.001 * n;
  return { x: n / 40, y, low: y * (0.97 - n / 4000), high: y * (1.03 + n / 4000) };
});

/** Points of a path that begins with a move and goes on relative to where it is, as browsers read it. */
function pointsOf(path: string): number[][] {
  const figures = [...path.matchAll(/-?\d+/g)].map(([text]) => Number(text));
  const points: number[][] = [];
  for (let at = 0; at < figures.length; at += 2) {
    const [x = 0, y = 0] = points.at(-1) ?? [];
    points.push([x + (figures[at] ?? 0), y + (figures[at + 1] ?? 0)]);
  }
  return points;
}

describe("a curve that is sent as text", () => {
  it("is read as it was, to the ten-thousandth, also where it goes below zero", () => {
    for (const curve of [
      CURVE,
      CURVE.map((p) => ({ ...p, y: p.y - 1, low: p.low - 1.2 })),
      CURVE.slice(0, 1),
    ]) {
      const read = curveOf(curveText(curve));
      expect(read).toHaveLength(curve.length);
      for (const [at, point] of curve.entries())
        for (const of of ["x", "y", "low", "high"] as const)
          expect(Math.abs((read[at]?.[of] ?? Number.NaN) - point[of])).toBeLessThanOrEqual(0.000_051);
    }
  });

  it("takes no more than fourteen letters a point", () => {
    expect(curveText(CURVE).length).toBeLessThanOrEqual(14 * CURVE.length);
  });
});

describe("a path", () => {
  const points = [
    [0, 120.4],
    [250.2, 118.6],
    [500, 118.6],
    [750, 2090.5],
  ] as const;
  const rounded = points.map((point) => point.map(Math.round));

  it("leads through every point in whole units, without adding up what is rounded off", () => {
    expect(linePath(points)).toMatch(/^m0 120 250/);
    expect(pointsOf(linePath(points))).toEqual(rounded);
    const steps = Array.from({ length: 50 }, (_, n) => [n * 0.4, n * -0.4] as const);
    expect(pointsOf(linePath(steps)).at(-1)).toEqual([20, -20]);
  });

  it("of an area goes there along one side and back along the other, and closes", () => {
    const area = areaPath(
      points,
      points.map(([x, y]) => [x, y + 30] as const),
    );
    expect(area.endsWith("z")).toBe(true);
    expect(pointsOf(area)).toEqual([...rounded, ...rounded.map(([x = 0, y = 0]) => [x, y + 30]).reverse()]);
  });
});
