import type { BandPoint } from "./CurveBand";

const FINE = 10_000;

/**
 * A curve in its band as text: of each point its x, its y and how far the band reaches below and above, in ten-thousandths, each as what
 * it differs by from the point before. A curve changes little from point to point, so that these are short, and much alike.
 */
export function curveText(points: readonly BandPoint[]): string {
  let before = [0, 0, 0, 0];
  return points
    .map((p) => {
      const [x = 0, y = 0, low = 0, high = 0] = [p.x, p.y, p.low, p.high].map((value) =>
        Math.round(value * FINE),
      );
      const now = [x, y, y - low, high - y];
      const step = now.map((value, at) => value - (before[at] ?? 0));
      before = now;
      return step.join(" ");
    })
    .join(",");
}

/** The curve that a text says. */
export function curveOf(text: string): BandPoint[] {
  let before = [0, 0, 0, 0];
  return text.split(",").map((step) => {
    const now = step.split(" ").map((value, at) => Number(value) + (before[at] ?? 0));
    before = now;
    const [x = 0, y = 0, below = 0, above = 0] = now;
    return { x: x / FINE, y: y / FINE, low: (y - below) / FINE, high: (y + above) / FINE };
  });
}
