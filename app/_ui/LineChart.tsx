import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import { Chart } from "./Chart";
import { figureText } from "./format";
import { LineKey, type LineOfChart, STROKE } from "./LineKey";

export interface LineChartProps {
  title: string;
  description: string;
  lines: readonly LineOfChart[];
  xName: string;
  yName: string;
  decimals?: number | undefined;
  /** A shaded band of y: noise, or what is wanted. */
  band?: { readonly low: number; readonly high: number; readonly name: string } | undefined;
  /** A place on x that is spoken of. */
  mark?: { readonly x: number; readonly name: string } | undefined;
  /** y always holds this, such as 0. */
  holds?: number | undefined;
  height?: number | undefined;
  locale?: string | undefined;
}

const TOP = 8;
const FULL = 1000;
/** Points of x that the table behind gives; more than these would not be read. */
const MOST_ROWS = 25;

/** One or two curves over one measure, ruled, with a key below and the figures as a table behind. */
export function LineChart({
  title,
  description,
  lines,
  xName,
  yName,
  decimals = 2,
  band,
  mark,
  holds,
  height = 236,
  locale = "en",
}: LineChartProps) {
  const floor = height - 30;
  const all = lines.flatMap((l) => l.points);
  const ys = [
    ...all.map((p) => p.y),
    ...(band ? [band.low, band.high] : []),
    ...(holds === undefined ? [] : [holds]),
  ];
  const xs = all.map((p) => p.x);
  const x = scaleLinear([Math.min(...xs), Math.max(...xs)], [0, FULL]);
  const y = scaleLinear([Math.min(...ys), Math.max(...ys)], [floor, TOP]).nice(4);
  const path = line<{ x: number; y: number }>()
    .x((p) => x(p.x))
    .y((p) => y(p.y));
  const at = (value: number) => `${x(value) / 10}%`;
  const first = lines[0]?.points ?? [];
  const every = Math.max(1, Math.ceil(first.length / MOST_ROWS));
  return (
    <Chart
      title={title}
      description={description}
      height={height}
      inset="pt-6 pl-12 pr-3"
      legend={<LineKey lines={lines} band={band?.name} />}
      table={{
        head: [xName, ...lines.map((l) => `${l.name}, ${yName}`)],
        rows: first
          .filter((_, i) => i % every === 0)
          .map((p) => [
            figureText(p.x, locale),
            ...lines.map((l) => cellAt(l, p.x, (n) => figureText(n, locale, decimals))),
          ]),
      }}
    >
      {band && (
        <rect
          x="0"
          width="100%"
          y={y(band.high)}
          height={Math.max(1, y(band.low) - y(band.high))}
          className="fill-pine-wash"
        />
      )}
      <g className="stroke-hair">
        {y.ticks(4).map((tick) => (
          <line
            key={tick}
            x1="0"
            x2="100%"
            y1={y(tick)}
            y2={y(tick)}
            className={tick === holds ? "stroke-edge" : undefined}
          />
        ))}
        {x.ticks(5).map((tick) => (
          <line key={tick} x1={at(tick)} x2={at(tick)} y1="0" y2={floor + 4} />
        ))}
      </g>
      {mark && (
        <line
          x1={at(mark.x)}
          x2={at(mark.x)}
          y1="0"
          y2={floor}
          strokeDasharray="2 3"
          className="stroke-ink"
        />
      )}
      <svg
        x="0"
        y="0"
        width="100%"
        height={height}
        viewBox={`0 0 ${FULL} ${height}`}
        preserveAspectRatio="none"
        aria-hidden="true"
      >
        {lines.map((l) => (
          <path
            key={l.name}
            d={path([...l.points]) ?? ""}
            fill="none"
            strokeWidth={l.dashed ? 2 : 3}
            strokeDasharray={l.dashed ? "6 5" : undefined}
            vectorEffect="non-scaling-stroke"
            className={STROKE[l.tone]}
          />
        ))}
      </svg>
      <g className="fill-soft font-mono">
        <text x="-40" y="-8">
          {yName}
        </text>
        {y.ticks(4).map((tick) => (
          <text key={tick} x="-8" y={y(tick) + 4} textAnchor="end">
            {figureText(tick, locale)}
          </text>
        ))}
        {x.ticks(5).map((tick) => (
          <text
            key={tick}
            x={at(tick)}
            y={floor + 22}
            textAnchor={x(tick) > FULL - 25 ? "end" : x(tick) < 25 ? "start" : "middle"}
          >
            {figureText(tick, locale)}
          </text>
        ))}
        <text x="100%" y="-8" textAnchor="end">
          {xName}
        </text>
      </g>
      {mark && (
        <text
          x={at(mark.x)}
          dx={x(mark.x) > FULL * 0.7 ? -6 : 6}
          y={TOP + 10}
          textAnchor={x(mark.x) > FULL * 0.7 ? "end" : "start"}
          className="fill-ink"
        >
          {mark.name}
        </text>
      )}
    </Chart>
  );
}

/** A line's value nearest to an x, where it reaches that far. */
function cellAt(l: LineOfChart, x: number, text: (n: number) => string): string {
  const last = l.points.at(-1);
  if (!last || x > last.x + 1e-9) return "–";
  const nearest = l.points.reduce((best, p) => (Math.abs(p.x - x) < Math.abs(best.x - x) ? p : best), last);
  return text(nearest.y);
}
