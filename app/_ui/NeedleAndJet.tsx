import { Chart } from "./Chart";
import { figureText } from "./format";

export interface NeedleDrawn {
  readonly name: string;
  /** Diameter (mm) by height over the plane of the needle jet, rising; covers at least -3 to 3 mm. */
  readonly outline: readonly { readonly atMm: number; readonly diameterMm: number }[];
  /** Diameter in the plane of the jet. */
  readonly inJetMm: number;
  readonly ringMm2: number;
}

export interface NeedleAndJetProps {
  needleJetMm: number;
  liftMm: number;
  needles: readonly NeedleDrawn[];
  locale?: string | undefined;
}

const WIDE = 170;
const TALL = 300;
const SPAN_MM = 3;

/** Needles in their needle jet at one lift, from the side and from above, all in one scale. */
export function NeedleAndJet({ needleJetMm, liftMm, needles, locale = "en" }: NeedleAndJetProps) {
  const scale = Math.min(26, 76 / needleJetMm);
  const round = (n: number, d = 3) => figureText(n, locale, d);
  return (
    <Chart
      title={`Needle in needle jet at ${round(liftMm, 1)} mm lift`}
      description={`Side view and view from above, in one scale. ${needles.map((n) => `${n.name}: ${round(n.inJetMm)} mm in a ${round(needleJetMm)} mm jet leaves ${round(n.ringMm2)} square millimetres.`).join(" ")}`}
      width={WIDE * needles.length}
      height={TALL}
      table={{
        head: ["Needle", "Diameter in the jet, mm", "Ring, mm²"],
        rows: needles.map((n) => [n.name, round(n.inJetMm), round(n.ringMm2)]),
      }}
    >
      <defs>
        <pattern
          id="jet-brass"
          width="5"
          height="5"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line x1="0" y1="0" x2="0" y2="5" strokeWidth="1" className="stroke-brass" />
        </pattern>
      </defs>
      {needles.map((needle, i) => (
        <g key={needle.name} transform={`translate(${WIDE * i + WIDE / 2} 0)`}>
          <text y="14" textAnchor="middle" className="fill-ink font-semibold">
            {needle.name}
          </text>
          <Side needle={needle} jet={needleJetMm} scale={scale} />
          <g transform="translate(0 232)">
            <circle r={needleJetMm * scale * 0.5 + 8} className="fill-none stroke-brass" />
            <circle r={(needleJetMm * scale) / 2} className="fill-brass-wash stroke-ink" />
            <circle r={(needle.inJetMm * scale) / 2} className="fill-sheet stroke-ink" strokeWidth="1.5" />
          </g>
          <text y={TALL - 6} textAnchor="middle" className="fill-ink font-mono">
            {round(needle.ringMm2)} mm²
          </text>
        </g>
      ))}
    </Chart>
  );
}

function Side({ needle, jet, scale }: { needle: NeedleDrawn; jet: number; scale: number }) {
  const middle = 24 + SPAN_MM * scale;
  const shown = needle.outline.filter((p) => Math.abs(p.atMm) <= SPAN_MM + 1e-9);
  const edge = (side: 1 | -1) =>
    shown.map(
      (p) => `${((side * p.diameterMm * scale) / 2).toFixed(2)},${(middle - p.atMm * scale).toFixed(2)}`,
    );
  const half = (jet * scale) / 2;
  const wall = 22;
  return (
    <>
      {([-1, 1] as const).map((side) => (
        <rect
          key={side}
          x={side === 1 ? half : -half - wall}
          y={middle}
          width={wall}
          height={SPAN_MM * scale}
          fill="url(#jet-brass)"
          className="stroke-ink"
        />
      ))}
      <polygon
        points={[...edge(-1), ...edge(1).reverse()].join(" ")}
        strokeWidth="1.5"
        className="fill-sheet stroke-ink"
      />
      <line
        x1={-half - wall - 8}
        x2={half + wall + 8}
        y1={middle}
        y2={middle}
        strokeDasharray="2 3"
        className="stroke-soft"
      />
    </>
  );
}
