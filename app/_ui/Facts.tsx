import type { ReactNode } from "react";

export interface FactsProps {
  /** `mono` for figures; `strong` for a total, over an ink line. */
  rows: readonly { key?: string; name: ReactNode; value: ReactNode; mono?: boolean; strong?: boolean }[];
}

/** Names at the left, values at the right, a hair line under each: a price, a bike, a setting. */
export function Facts({ rows }: FactsProps) {
  return (
    <dl>
      {rows.map((row, at) => (
        <div
          key={row.key ?? at}
          className={
            row.strong
              ? "flex items-baseline justify-between gap-4 border-ink border-t-2 border-b border-b-hair py-2 font-bold text-[22px]"
              : "flex items-baseline justify-between gap-4 border-hair border-b py-[7px]"
          }
        >
          <dt className="min-w-0">{row.name}</dt>
          <dd className={row.mono ? "text-end font-mono" : "text-end"}>{row.value}</dd>
        </div>
      ))}
    </dl>
  );
}
