"use client";
import { type ReactNode, useId, useState } from "react";
import type { Firmness, Reason } from "@/lib/domain/reason";
import { cx } from "./cx";
import { Fetched } from "./Fetched";
import { liveModule } from "./liveModule";
import { words } from "./words";

export interface OpensProps {
  /** The figure as shown. */
  children: ReactNode;
  /** What it rests on; or the address that answers it as JSON, where a page shows many figures with many reasons. */
  because: readonly Reason[] | string;
  firmness?: Firmness | undefined;
  /** What the figure is, for the heading and for screen readers: "Main jet". */
  name?: string | undefined;
  className?: string | undefined;
}

const REASONS = liveModule(() => import("./Reasons"));

/**
 * A figure that opens to the facts it rests on. The browser does the opening; Esc or a touch outside closes. What it opens to is drawn,
 * and fetched where it has an address, as it opens: most of a page's figures never are.
 */
export function Opens({ children, because, firmness, name, className }: OpensProps) {
  const id = useId();
  const [opened, setOpened] = useState(false);
  return (
    <>
      <button
        type="button"
        popoverTarget={id}
        aria-haspopup="dialog"
        className={cx("opens", className)}
        onPointerDown={() => REASONS.ask()}
        onFocus={() => REASONS.ask()}
      >
        {name && <span className="sr-only">{name}: </span>}
        <span>{children}</span>
        <span className="sr-only">, {words.opens}</span>
      </button>
      {/* Spans throughout: a figure may stand in a paragraph, where no block may. */}
      <span
        id={id}
        popover="auto"
        role="dialog"
        aria-label={name ?? words.whatItRestsOn}
        className="pop"
        onBeforeToggle={(event) => event.newState === "open" && setOpened(true)}
      >
        {opened && (
          <Fetched of={REASONS} className="block px-4 py-2 text-[15px]">
            {({ Reasons }) => <Reasons because={because} firmness={firmness} name={name} />}
          </Fetched>
        )}
      </span>
    </>
  );
}
