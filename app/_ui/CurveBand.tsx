import { areaPath, linePath } from "./paths";

/** A point of a curve with the range it may lie in. */
export interface BandPoint {
  readonly x: number;
  readonly y: number;
  readonly low: number;
  readonly high: number;
}

export interface CurveBandProps {
  points: readonly BandPoint[];
  /** Where a value stands in the drawing, whose units are so small that a whole one is not seen. */
  x: (value: number) => number;
  y: (value: number) => number;
  bandClass: string;
  /** Without one the band alone is drawn. */
  lineClass?: string | undefined;
  dashed?: boolean | undefined;
}

/** A curve in its band, from point to point: with forty of them no corner is seen, and a browser needs no library to draw it. */
export function CurveBand({ points, x, y, bandClass, lineClass, dashed }: CurveBandProps) {
  const along = (of: "y" | "low" | "high") => points.map((p) => [x(p.x), y(p[of])] as const);
  return (
    <>
      <path d={areaPath(along("low"), along("high"))} className={bandClass} />
      {lineClass && (
        <path
          d={linePath(along("y"))}
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
