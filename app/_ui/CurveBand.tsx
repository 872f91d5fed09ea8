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

/** A curve in its band, from point to point: with forty of them no corner is seen, and a browser needs no library to draw it. */
export function CurveBand({ points, x, y, bandClass, lineClass, dashed }: CurveBandProps) {
  const along = (of: readonly BandPoint[], value: (p: BandPoint) => number) =>
    of.map((p) => `${x(p.x).toFixed(1)} ${y(value(p)).toFixed(1)}`).join("L");
  return (
    <>
      <path
        d={`M${along(points, (p) => p.low)}L${along(points.toReversed(), (p) => p.high)}Z`}
        className={bandClass}
      />
      {lineClass && (
        <path
          d={`M${along(points, (p) => p.y)}`}
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
