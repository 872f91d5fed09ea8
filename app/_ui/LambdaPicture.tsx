import { Chart } from "./Chart";
import { type BandPoint, CurveBand } from "./CurveBand";
import { figureText } from "./format";
import { words } from "./words";

/** Where a rider felt the mixture to be off: throttle 0 to 1. */
export interface FeltMark {
  readonly throttle: number;
  readonly sign: "lean" | "rich";
}

export interface LambdaChartProps {
  title: string;
  description: string;
  /** As found; may be left out. x is the throttle from 0 to 1, y lambda. */
  before?: readonly BandPoint[] | undefined;
  after: readonly BandPoint[];
  wanted?: { readonly low: number; readonly high: number } | undefined;
  /** Where what is wanted is another at each opening: a curve in its band instead of one band. */
  wantedCurve?: readonly BandPoint[] | undefined;
  unit?: string | undefined;
  xName?: string | undefined;
  /** Where x is something else than the grip: its share of the axis, 0 to 1, and what stands there. */
  ticks?: readonly (readonly [at: number, word: string])[] | undefined;
  /** The figures at both ends of the axis, which the table counts between; without them it says per cent. */
  ends?: readonly [low: number, high: number] | undefined;
  /** What was felt, marked on the curve as found, or on the other where there is only one. */
  felt?: readonly FeltMark[] | undefined;
  beforeLabel?: string | undefined;
  afterLabel?: string | undefined;
  locale?: string | undefined;
}

/** What the height of a drawing stands for: the values at its top and its floor, and those that are ruled. */
export interface LambdaFrame {
  readonly top: number;
  readonly floor: number;
  readonly ticks: readonly number[];
}

interface LambdaPictureProps extends LambdaChartProps {
  frame: LambdaFrame;
}

const HEIGHT = 236;
const TOP = 8;
const FLOOR = 206;
const WIDE = 10_000;
const QUARTERS = [
  [0, "0"],
  [0.25, "¼"],
  [0.5, "½"],
  [0.75, "¾"],
  [1, "full"],
] as const;
/** Half of a range as a share of its middle, in per cent: a range that moves with the curve is as wide as before. */
const shareText = (q: BandPoint, locale: string) =>
  figureText(100 * (Math.sqrt(q.high / q.low) - 1), locale, 1);
const PAGE = "stroke-paper [paint-order:stroke] [stroke-width:3px]";

/** Mixture over throttle in a frame that is known. */
export function LambdaPicture({
  title,
  description,
  before,
  after,
  wanted,
  wantedCurve,
  unit = "λ",
  frame,
  ...rest
}: LambdaPictureProps) {
  const { xName = "throttle", ticks = QUARTERS, ends } = rest;
  const { felt = [] } = rest;
  const { beforeLabel = words.asFound, afterLabel = words.target, locale = "en" } = rest;
  const xText = (at: number) =>
    ends ? figureText(ends[0] + at * (ends[1] - ends[0]), locale, 0) : `${Math.round(at * 100)} %`;
  const y = (value: number) => TOP + ((value - frame.top) / (frame.floor - frame.top)) * (FLOOR - TOP);
  // In the curves' own drawing: a tenth of a pixel high, and at most a fifth of one wide.
  const fine = { x: (value: number) => value * WIDE, y: (value: number) => y(value) * 10 };
  const round = (n: number) => figureText(n, locale, 2);
  const nearest = (points: readonly BandPoint[], at: number) =>
    points.reduce((best, p) => (Math.abs(p.x - at) < Math.abs(best.x - at) ? p : best));
  const label = nearest(after, 0.45);
  const aimed = wantedCurve && wantedCurve.length > 0 ? nearest(wantedCurve, 0.3) : undefined;
  const found = before && before.length > 0 ? nearest(before, 0.85) : undefined;
  return (
    <Chart
      title={title}
      description={[description, ...felt.map((m) => `Felt ${m.sign} at ${xText(m.throttle)}.`)].join(" ")}
      height={HEIGHT}
      inset="pt-4 pl-11 pr-2"
      table={{
        head: [
          xName,
          ...(wantedCurve ? [words.wanted] : []),
          `${afterLabel} ${unit}`,
          "± %",
          ...(before ? [`${beforeLabel} ${unit}`, "± % "] : []),
        ],
        rows: after.map((p, at) => {
          const b = before?.[at];
          const pair = (q: BandPoint) => [round(q.y), shareText(q, locale)];
          const aim = wantedCurve?.[at];
          return [xText(p.x), ...(aim ? [round(aim.y)] : []), ...pair(p), ...(b ? pair(b) : [])];
        }),
      }}
    >
      {wanted && (
        <rect
          x="0"
          width="100%"
          y={y(wanted.low)}
          height={y(wanted.high) - y(wanted.low)}
          className="fill-pine-wash"
        />
      )}
      <g className="stroke-hair">
        {frame.ticks.map((tick) => (
          <line key={tick} x1="0" x2="100%" y1={y(tick)} y2={y(tick)} />
        ))}
        {ticks.map(([at]) => (
          <line key={at} x1={`${at * 100}%`} x2={`${at * 100}%`} y1={TOP - 8} y2={FLOOR + 4} />
        ))}
      </g>
      <svg
        x="0"
        y="0"
        width="100%"
        height={HEIGHT}
        viewBox={`0 0 ${WIDE} ${HEIGHT * 10}`}
        preserveAspectRatio="none"
        aria-hidden="true"
      >
        {wantedCurve && <CurveBand points={wantedCurve} {...fine} bandClass="fill-pine-wash" />}
        {before && before.length > 0 && (
          <CurveBand points={before} {...fine} dashed bandClass="fill-soft/15" lineClass="stroke-soft" />
        )}
        <CurveBand points={after} {...fine} bandClass="fill-brass-fill/40" lineClass="stroke-brass" />
      </svg>
      {felt.map((mark) => {
        const at = y(nearest(before && before.length > 0 ? before : after, mark.throttle).y);
        const lean = mark.sign === "lean";
        return (
          <g key={`${mark.throttle} ${mark.sign}`} className="fill-oxide">
            <svg x={`${mark.throttle * 100}%`} y={at} overflow="visible" aria-hidden="true">
              <path d={lean ? "M-6 4L6 4L0 14Z" : "M-6 -4L6 -4L0 -14Z"} />
            </svg>
            <text
              x={`${mark.throttle * 100}%`}
              y={at + (lean ? 28 : -18)}
              textAnchor={mark.throttle < 0.1 ? "start" : mark.throttle > 0.9 ? "end" : "middle"}
              className={PAGE}
            >
              {lean ? words.feltLean : words.feltRich}
            </text>
          </g>
        );
      })}
      <g className="fill-soft font-mono">
        <text x="-34" y="-4">
          {unit}
        </text>
        {frame.ticks.map((tick) => (
          <text key={tick} x="-9" y={y(tick) + 4} textAnchor="end">
            {round(tick)}
          </text>
        ))}
        {ticks.map(([at, word]) => (
          <text
            key={at}
            x={`${at * 100}%`}
            y={FLOOR + 24}
            textAnchor={at === 0 ? "start" : at === 1 ? "end" : "middle"}
          >
            {word}
          </text>
        ))}
      </g>
      <text
        x="45%"
        y={Math.min(y(label.low), wanted ? y(wanted.low) : y(label.low)) - 8}
        textAnchor="middle"
        className={`fill-brass font-semibold ${PAGE}`}
      >
        {afterLabel}
      </text>
      {wanted && (
        <text x="45%" y={y(wanted.high) - 6} textAnchor="middle" className={`fill-pine ${PAGE}`}>
          {words.wanted}
        </text>
      )}
      {aimed && (
        <text
          x={`${aimed.x * 100}%`}
          y={Math.min(y(aimed.high) + 14, FLOOR)}
          textAnchor="middle"
          className={`fill-pine ${PAGE}`}
        >
          {words.wanted}
        </text>
      )}
      {found && (
        <text
          x="100%"
          dx="-6"
          y={Math.min(y(found.high) + 17, FLOOR + 2)}
          textAnchor="end"
          className={`fill-soft ${PAGE}`}
        >
          {beforeLabel}
        </text>
      )}
    </Chart>
  );
}
