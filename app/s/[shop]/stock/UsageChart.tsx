import { Chart } from "@/app/_ui/Chart";
import { amountText } from "./amount";

export interface UsageChartProps {
  code: string;
  unit: string;
  locale: string;
  pointMilli: number;
  months: readonly { month: string; usedMilli: number }[];
}

const FLOOR = 130;

/** What was used month by month as bars, the order point a line across. */
export function UsageChart({ code, unit, locale, pointMilli, months }: UsageChartProps) {
  const most = Math.max(...months.map((month) => month.usedMilli), pointMilli, 1000) * 1.15;
  const text = (milli: number) => amountText(milli, unit, locale);
  const up = (milli: number) => FLOOR - (Math.max(0, milli) / most) * (FLOOR - 14);
  const named = new Intl.DateTimeFormat(locale, { month: "short", timeZone: "UTC" });
  const name = (month: string) => named.format(new Date(`${month}-01T00:00:00Z`));
  const step = 100 / months.length;
  return (
    <Chart
      title={`Use of ${code} per month`}
      description={`The last twelve months and the one that runs; order point ${pointMilli > 0 ? text(pointMilli) : "not set"}.`}
      height={156}
      table={{
        head: ["month", "used"],
        rows: months.map((month) => [month.month, text(month.usedMilli)]),
      }}
    >
      <line x1="0" x2="100%" y1={FLOOR} y2={FLOOR} className="stroke-ink" />
      {months.map((month, at) => (
        <g key={month.month}>
          {month.usedMilli > 0 && (
            <>
              <rect
                x={`${at * step + step * 0.2}%`}
                y={up(month.usedMilli)}
                width={`${step * 0.6}%`}
                height={FLOOR - up(month.usedMilli)}
                className="fill-brass-wash stroke-ink"
              />
              <text
                x={`${at * step + step / 2}%`}
                y={up(month.usedMilli) - 4}
                textAnchor="middle"
                className="fill-ink font-mono"
              >
                {text(month.usedMilli).split(" ")[0]}
              </text>
            </>
          )}
          {at % 2 === 0 && (
            <text x={`${at * step + step / 2}%`} y={FLOOR + 18} textAnchor="middle" className="fill-soft">
              {name(month.month)}
            </text>
          )}
        </g>
      ))}
      {pointMilli > 0 && (
        <>
          <line
            x1="0"
            x2="100%"
            y1={up(pointMilli)}
            y2={up(pointMilli)}
            strokeWidth="2"
            strokeDasharray="6 4"
            className="stroke-brass"
          />
          <text x="0" y={up(pointMilli) - 5} className="fill-brass">
            order point {text(pointMilli)}
          </text>
        </>
      )}
    </Chart>
  );
}
