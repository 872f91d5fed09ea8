import type { BandPoint } from "./CurveBand";

const FINE = 10_000;

/** A curve in its band as text: each point's x, y, low and high in ten-thousandths. */
export const curveText = (points: readonly BandPoint[]): string =>
  points.map((p) => [p.x, p.y, p.low, p.high].map((value) => Math.round(value * FINE)).join(" ")).join(",");

/** The curve that a text says. */
export const curveOf = (text: string): BandPoint[] =>
  text.split(",").map((point) => {
    const [x = 0, y = 0, low = 0, high = 0] = point.split(" ").map((value) => Number(value) / FINE);
    return { x, y, low, high };
  });
