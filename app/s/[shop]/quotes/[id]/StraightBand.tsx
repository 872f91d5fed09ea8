import type { BandPoint, CurveBandProps } from "@/app/_ui/CurveBand";

/** A curve in its band, from point to point: with forty of them no corner is seen, and a browser needs no library to draw it. */
export function StraightBand({ points, x, y, bandClass, lineClass, dashed }: CurveBandProps) {
  const along = (of: readonly BandPoint[], value: (p: BandPoint) => number) =>
    of.map((p) => `${x(p.x).toFixed(1)} ${y(value(p)).toFixed(1)}`).join("L");
  return (
    <>
      <path
        d={`M${along(points, (p) => p.low)}L${along(points.toReversed(), (p) => p.high)}Z`}
        className={bandClass}
      />
      <path
        d={`M${along(points, (p) => p.y)}`}
        className={lineClass}
        fill="none"
        strokeWidth={dashed ? 2 : 3}
        strokeDasharray={dashed ? "6 5" : undefined}
        vectorEffect="non-scaling-stroke"
      />
    </>
  );
}
