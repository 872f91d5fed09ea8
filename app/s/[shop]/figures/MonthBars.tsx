import { scaleBand, scaleLinear } from "d3-scale";
import { Chart } from "@/app/_ui/Chart";
import { moneyText } from "@/app/_ui/moneyText";
import type { WinLine } from "@/lib/data/figures/winRate";

const HEIGHT = 220;
const FLOOR = 180;

interface Props {
  months: readonly WinLine[];
  currency: string;
  locale: string;
}

/** Each month's quotes as one bar: won in brass, waiting in wash, lost or run out as an empty outline. */
export function MonthBars({ months, currency, locale }: Props) {
  const most = Math.max(1, ...months.map((m) => m.sent));
  const x = scaleBand(
    months.map((m) => m.key),
    [0, 100],
  ).padding(0.28);
  const y = scaleLinear([0, most], [FLOOR, 14]);
  const name = (key: string, long = false) =>
    new Intl.DateTimeFormat(locale, {
      month: long ? "long" : "short",
      ...(long ? { year: "numeric" } : {}),
      timeZone: "UTC",
    }).format(new Date(`${key}-01T00:00:00Z`));
  const bar = (month: WinLine, from: number, count: number, look: string) =>
    count > 0 && (
      <rect
        x={`${x(month.key) ?? 0}%`}
        width={`${x.bandwidth()}%`}
        y={y(from + count)}
        height={Math.max(0, y(from) - y(from + count) - 1)}
        className={look}
      />
    );
  return (
    <Chart
      title="Quotes sent each month: won, waiting, lost"
      description="One bar a month for twelve months; the height is the number of quotes sent, split into won, waiting and lost or run out."
      height={HEIGHT}
      inset="pl-8 pr-1"
      legend={
        <ul className="mt-1 flex flex-wrap gap-x-5 text-[14px]">
          {[
            ["won", "bg-brass-fill border-brass-fill"],
            ["waiting", "bg-brass-wash border-edge"],
            ["lost or run out", "border-edge border-dashed"],
          ].map(([word, look]) => (
            <li key={word} className="flex items-center gap-2">
              <span aria-hidden="true" className={`inline-block h-3 w-5 border ${look}`} />
              {word}
            </li>
          ))}
        </ul>
      }
      table={{
        head: ["Month", "Sent", "Won", "Waiting", "Lost or run out", "Win rate", "Value won"],
        rows: months.map((m) => [
          name(m.key, true),
          m.sent,
          m.won,
          m.open,
          m.lost,
          m.rate === null ? "–" : `${Math.round(m.rate * 100)} %`,
          moneyText(m.wonMinor, currency, locale),
        ]),
      }}
    >
      <g className="stroke-hair">
        {y
          .ticks(Math.min(4, most))
          .filter(Number.isInteger)
          .map((tick) => (
            <line key={tick} x1="0" x2="100%" y1={y(tick)} y2={y(tick)} />
          ))}
      </g>
      {months.map((m) => (
        <g key={m.key}>
          {bar(m, 0, m.won, "fill-brass-fill")}
          {bar(m, m.won, m.open, "fill-brass-wash stroke-edge")}
          {bar(m, m.won + m.open, m.lost, "fill-none stroke-edge [stroke-dasharray:3_3]")}
        </g>
      ))}
      <g className="fill-soft font-mono text-[12px]">
        {y
          .ticks(Math.min(4, most))
          .filter(Number.isInteger)
          .map((tick) => (
            <text key={tick} x="-8" y={y(tick) + 4} textAnchor="end">
              {tick}
            </text>
          ))}
        {months.map((m) => (
          <text key={m.key} x={`${(x(m.key) ?? 0) + x.bandwidth() / 2}%`} y={FLOOR + 20} textAnchor="middle">
            {name(m.key).slice(0, 3)}
          </text>
        ))}
      </g>
    </Chart>
  );
}
