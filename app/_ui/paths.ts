type Point = readonly [x: number, y: number];

/**
 * A line through points, for the `d` of an SVG path. In whole units, each point by how far it is from the one before: with thousands of
 * units to the drawing nothing is seen of that, and no other writing is as short.
 */
export function linePath(points: readonly Point[]): string {
  let [x, y] = [0, 0];
  const steps = points.map((point) => {
    const [left, top] = [Math.round(point[0]), Math.round(point[1])];
    const step = [left - x, top - y];
    [x, y] = [left, top];
    return step;
  });
  return `m${steps.flat().join(" ").replaceAll(" -", "-")}`;
}

/** The area between two lines. */
export const areaPath = (one: readonly Point[], other: readonly Point[]): string =>
  `${linePath([...one, ...other.toReversed()])}z`;
