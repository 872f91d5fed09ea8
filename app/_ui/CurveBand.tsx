import { area, curveMonotoneX, line } from "d3-shape";

/** A point of a curve with the range it may lie in. */
export interface BandPoint {
  readonly x: number;
  readonly y: number;
  readonly low: number;
  readonly high: number;
}

export interface CurveBandProps {
  points: readonly BandPoint[];
  x: (value: number) => number;
  y: (value: number) => number;
  bandClass: string;
  lineClass: string;
  dashed?: boolean | undefined;
}

/** A curve in its band of uncertainty. The stroke keeps its width however the drawing is stretched. */
export function CurveBand({ points, x, y, bandClass, lineClass, dashed }: CurveBandProps) {
  const band = area<BandPoint>()
    .digits(1)
    .x((p) => x(p.x))
    .y0((p) => y(p.low))
    .y1((p) => y(p.high))
    .curve(curveMonotoneX);
  const middle = line<BandPoint>()
    .digits(1)
    .x((p) => x(p.x))
    .y((p) => y(p.y))
    .curve(curveMonotoneX);
  return (
    <>
      <path d={band([...points]) ?? ""} className={bandClass} />
      <path
        d={middle([...points]) ?? ""}
        className={lineClass}
        fill="none"
        strokeWidth={dashed ? 2 : 3}
        strokeDasharray={dashed ? "6 5" : undefined}
        vectorEffect="non-scaling-stroke"
      />
    </>
  );
}
