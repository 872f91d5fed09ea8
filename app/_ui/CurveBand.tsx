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
  /** Without one the band alone is drawn. */
  lineClass?: string | undefined;
  dashed?: boolean | undefined;
}

/** A curve in its band of uncertainty, to a tenth of a thousandth of its width. The stroke keeps its width however the drawing is stretched. */
export function CurveBand({ points, x, y, bandClass, lineClass, dashed }: CurveBandProps) {
  const band = area<BandPoint>()
    .x((p) => x(p.x))
    .y0((p) => y(p.low))
    .y1((p) => y(p.high))
    .curve(curveMonotoneX)
    .digits(1);
  const middle = line<BandPoint>()
    .x((p) => x(p.x))
    .y((p) => y(p.y))
    .curve(curveMonotoneX)
    .digits(1);
  return (
    <>
      <path d={band([...points]) ?? ""} className={bandClass} />
      {lineClass && (
        <path
          d={middle([...points]) ?? ""}
          className={lineClass}
          fill="none"
          strokeWidth={dashed ? 2 : 3}
          strokeDasharray={dashed ? "6 5" : undefined}
          vectorEffect="non-scaling-stroke"
        />
      )}
    </>
  );
}
