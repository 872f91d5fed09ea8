import { Chart } from "@/app/_ui/Chart";
import { amountText } from "./amount";

export interface StockLevelProps {
  code: string;
  unit: string;
  locale: string;
  onHandMilli: number;
  reservedMilli: number;
  onOrderMilli: number;
  pointMilli: number;
}

/** What is on hand as a bar: the reserved part filled, what is on order dashed, the order point a tick. */
export function StockLevel({ code, unit, locale, ...stock }: StockLevelProps) {
  const most = Math.max(stock.onHandMilli + stock.onOrderMilli, stock.pointMilli * 1.25, 1000);
  const at = (milli: number) => `${(milli / most) * 100}%`;
  const text = (milli: number) => amountText(milli, unit, locale);
  const free = stock.onHandMilli - stock.reservedMilli;
  const late = stock.pointMilli / most > 0.7;
  return (
    <Chart
      title={`Stock level of ${code}`}
      description={`${text(stock.onHandMilli)} on hand, ${text(stock.reservedMilli)} of it reserved, ${text(stock.onOrderMilli)} on order, order point ${text(stock.pointMilli)}.`}
      height={76}
      table={{
        head: ["", "quantity"],
        rows: [
          ["on hand", text(stock.onHandMilli)],
          ["reserved", text(stock.reservedMilli)],
          ["free", text(free)],
          ["on order", text(stock.onOrderMilli)],
          ["order point", text(stock.pointMilli)],
        ],
      }}
    >
      <line x1="0" x2="100%" y1="50" y2="50" className="stroke-rule" />
      <rect x="0" y="24" width={at(stock.reservedMilli)} height="26" className="fill-ink stroke-ink" />
      <rect
        x={at(stock.reservedMilli)}
        y="24"
        width={at(free)}
        height="26"
        strokeWidth="1.5"
        className="fill-brass-wash stroke-ink"
      />
      {stock.onOrderMilli > 0 && (
        <rect
          x={at(stock.onHandMilli)}
          y="24"
          width={at(stock.onOrderMilli)}
          height="26"
          strokeWidth="1.5"
          strokeDasharray="5 4"
          className="fill-none stroke-ink"
        />
      )}
      {stock.pointMilli > 0 && (
        <>
          <line
            x1={at(stock.pointMilli)}
            x2={at(stock.pointMilli)}
            y1="14"
            y2="56"
            strokeWidth="2.5"
            className="stroke-brass"
          />
          <text
            x={at(stock.pointMilli)}
            dx={late ? -6 : 6}
            y="14"
            textAnchor={late ? "end" : "start"}
            className="fill-brass"
          >
            point {text(stock.pointMilli)}
          </text>
        </>
      )}
      <text x="0" y="70" className="fill-soft">
        filled = reserved{stock.onOrderMilli > 0 ? " · dashed = on order" : ""}
      </text>
    </Chart>
  );
}
