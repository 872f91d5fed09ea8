"use client";
import type { ReactNode } from "react";

export interface FactsProps {
  /** `mono` for figures; `strong` for a total, over an ink line. */
  rows: readonly { key?: string; name: ReactNode; value: ReactNode; mono?: boolean; strong?: boolean }[];
}

/** Names at the left, values at the right, a hair line under each: a price, a bike, a setting. */
export function Facts({ rows }: FactsProps) {
  return (
    <dl className="facts">
      {rows.map((row, at) => (
        <div key={row.key ?? at} className={row.strong ? "strong" : undefined}>
          <dt>{row.name}</dt>
          <dd className={row.mono ? "font-mono" : undefined}>{row.value}</dd>
        </div>
      ))}
    </dl>
  );
}
