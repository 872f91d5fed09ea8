"use client";
import type { ReactNode } from "react";

export interface PageHeadProps {
  title: ReactNode;
  /** The shop's name: the browser shows "Quote 1052 · Saltpan". Pages outside a shop say their title in their metadata. */
  of?: string | undefined;
  /** The title in plain text, where it is more than that. */
  named?: string | undefined;
  sub?: ReactNode;
  /** A `State`. */
  state?: ReactNode;
  /** Buttons; the main act last. */
  actions?: ReactNode;
}

/** The page's name over the ink line, with what it is about, its state and its acts. */
export function PageHead({ title, of, named, sub, state, actions }: PageHeadProps) {
  const name = named ?? (typeof title === "string" ? title : "");
  return (
    <div className="mb-5 flex flex-wrap items-center justify-between gap-x-6 gap-y-3 border-ink border-b-2 pb-2.5">
      {of && <title>{name ? `${name} · ${of}` : of}</title>}
      <div className="flex min-h-11 min-w-0 flex-wrap items-baseline gap-x-[18px] gap-y-0.5 pt-1.5">
        <h1 className="font-bold text-[26px] leading-[1.2]">{title}</h1>
        {sub && <p>{sub}</p>}
        {state}
      </div>
      {actions && (
        <div className="flex flex-wrap gap-2.5 max-sm:w-full max-sm:*:min-w-0 max-sm:*:grow max-sm:*:basis-[calc(50%-5px)] max-sm:[&_button]:w-full">
          {actions}
        </div>
      )}
    </div>
  );
}
