import { Chart } from "@/app/_ui/Chart";
import { figureText } from "@/app/_ui/format";

export interface ValueChartProps {
  months: readonly { day: string; valueE4: number }[];
  locale: string;
  currency: string;
}

const FLOOR = 120;

/** Stock value at the end of each month, as bars. */
export function ValueChart({ months, locale, currency }: ValueChartProps) {
  const most = Math.max(1, ...months.map((month) => month.valueE4)) * 1.12;
  const step = 100 / months.length;
  const text = (e4: number) => figureText(Math.round(e4 / 10_000), locale);
  const named = new Intl.DateTimeFormat(locale, { month: "short", timeZone: "UTC" });
  return (
    <Chart
      title="Stock value at each month's end"
      description={`In ${currency}, the last twelve months.`}
      height={146}
      table={{
        head: ["end of", `value, ${currency}`],
        rows: months.map((month) => [month.day, text(month.valueE4)]),
      }}
    >
      <line x1="0" x2="100%" y1={FLOOR} y2={FLOOR} className="stroke-ink" />
      {months.map((month, at) => {
        const tall = (Math.max(0, month.valueE4) / most) * (FLOOR - 16);
        return (
          <g key={month.day}>
            <rect
              x={`${at * step + step * 0.15}%`}
              y={FLOOR - tall}
              width={`${step * 0.7}%`}
              height={tall}
              className="fill-brass-wash stroke-ink"
            />
            {at % 3 === months.length % 3 && (
              <>
                <text
                  x={`${at * step + step / 2}%`}
                  y={FLOOR - tall - 4}
                  textAnchor="middle"
                  className="fill-ink font-mono"
                >
                  {text(month.valueE4)}
                </text>
                <text x={`${at * step + step / 2}%`} y={FLOOR + 18} textAnchor="middle" className="fill-soft">
                  {named.format(new Date(`${month.day}T00:00:00Z`))}
                </text>
              </>
            )}
          </g>
        );
      })}
    </Chart>
  );
}
