import { scaleBand, scaleLinear } from "d3-scale";
import { Chart, type ChartRows } from "@/app/_ui/Chart";

const HEIGHT = 200;
const FLOOR = 164;

export interface MonthColumn {
  readonly month: string;
  readonly value: number;
  /** Stands behind the value as an outline: what it is held against. */
  readonly behind?: number;
}

interface Props {
  title: string;
  description: string;
  months: readonly MonthColumn[];
  table: ChartRows;
  locale: string;
  /** A value of the scale in words. */
  say: (value: number) => string;
}

/** A column a month: the value in brass, what it is held against as an outline behind it. A value below zero hangs from the line. */
export function MonthColumns({ title, description, months, table, locale, say }: Props) {
  const values = months.flatMap(({ value, behind = 0 }) => [value, behind]);
  const x = scaleBand(
    months.map((one) => one.month),
    [0, 100],
  ).padding(0.28);
  const y = scaleLinear([Math.min(0, ...values), Math.max(1, ...values)], [FLOOR, 14]).nice(4);
  const rect = (month: string, value: number, look: string) =>
    value !== 0 && (
      <rect
        x={`${x(month) ?? 0}%`}
        width={`${x.bandwidth()}%`}
        y={Math.min(y(0), y(value))}
        height={Math.abs(y(0) - y(value))}
        className={look}
      />
    );
  const every = Math.ceil(months.length / 12);
  const name = (month: string) =>
    new Intl.DateTimeFormat(locale, { month: "short", timeZone: "UTC" })
      .format(new Date(`${month}-01T00:00:00Z`))
      .slice(0, 3);
  return (
    <Chart title={title} description={description} height={HEIGHT} inset="pl-14 pr-1" table={table}>
      <g className="stroke-hair">
        {y.ticks(4).map((tick) => (
          <line key={tick} x1="0" x2="100%" y1={y(tick)} y2={y(tick)} />
        ))}
      </g>
      {months.map(({ month, value, behind = 0 }) => (
        <g key={month}>
          {rect(month, behind, "fill-none stroke-edge [stroke-dasharray:3_3]")}
          {rect(month, value, "fill-brass-fill")}
        </g>
      ))}
      <g className="fill-soft font-mono text-[12px]">
        {y.ticks(4).map((tick) => (
          <text key={tick} x="-6" y={y(tick) + 4} textAnchor="end">
            {say(tick)}
          </text>
        ))}
        {months.map(
          ({ month }, at) =>
            at % every === 0 && (
              <text
                key={month}
                x={`${(x(month) ?? 0) + x.bandwidth() / 2}%`}
                y={FLOOR + 20}
                textAnchor="middle"
              >
                {name(month)}
              </text>
            ),
        )}
      </g>
    </Chart>
  );
}
