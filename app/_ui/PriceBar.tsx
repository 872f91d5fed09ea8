import { Chart } from "./Chart";
import { cx } from "./cx";
import { moneyText } from "./format";

export interface PricePart {
  readonly label: string;
  /** Below zero: it comes off, and is drawn dashed at the end. */
  readonly minor: number;
  readonly tone: "labour" | "parts" | "sundries" | "outside" | "tax" | "margin" | "off";
}

export interface PriceBarProps {
  title: string;
  description: string;
  parts: readonly PricePart[];
  currency: string;
  locale: string;
}

const FILL: Record<PricePart["tone"], string> = {
  labour: "fill-brass-fill",
  parts: "fill-brass-wash",
  sundries: "fill-hair",
  outside: "fill-sheet",
  tax: "fill-rule",
  margin: "fill-pine-wash",
  off: "fill-none",
};

/** A price as one stacked bar: what it is made of, and what comes off. */
export function PriceBar({ title, description, parts, currency, locale }: PriceBarProps) {
  const whole = parts.reduce((sum, part) => sum + Math.max(part.minor, 0), 0) || 1;
  let left = 0;
  let right = 100;
  const laid = parts.map((part) => {
    const wide = (Math.abs(part.minor) / whole) * 100;
    if (part.minor < 0) right -= wide;
    const at = part.minor < 0 ? right : left;
    if (part.minor > 0) left += wide;
    return { ...part, at, wide };
  });
  const says = (minor: number) => moneyText(minor, currency, locale);
  return (
    <Chart
      title={title}
      description={description}
      height={34}
      inset="px-px"
      table={{ head: ["", currency], rows: parts.map((part) => [part.label, says(part.minor)]) }}
      legend={
        <ul className="mt-1.5 flex flex-wrap gap-x-5 gap-y-1 text-[14px]">
          {parts.map((part) => (
            <li key={part.label} className="flex items-center gap-1.5">
              <svg aria-hidden="true" width="12" height="12" className="flex-none">
                <rect
                  x="1"
                  y="1"
                  width="10"
                  height="10"
                  strokeDasharray={part.minor < 0 ? "3 2" : undefined}
                  className={cx("stroke-ink", FILL[part.tone])}
                />
              </svg>
              {part.label} <span className="font-mono">{says(part.minor)}</span>
            </li>
          ))}
        </ul>
      }
    >
      {laid.map((part) => (
        <rect
          key={part.label}
          x={`${part.at}%`}
          width={`${part.wide}%`}
          y={part.minor < 0 ? 1 : 5}
          height={part.minor < 0 ? 32 : 24}
          strokeDasharray={part.minor < 0 ? "4 3" : undefined}
          className={cx("stroke-ink", FILL[part.tone])}
        >
          <title>{`${part.label} ${says(part.minor)}`}</title>
        </rect>
      ))}
    </Chart>
  );
}
