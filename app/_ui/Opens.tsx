"use client";
import { type ReactNode, useId, useRef, useState } from "react";
import type { Firmness, Reason } from "@/lib/domain/reason";
import { VERIFY } from "@/lib/domain/reason";
import { cx } from "./cx";
import { State } from "./State";
import { words } from "./words";

export interface OpensProps {
  /** The figure as shown. */
  children: ReactNode;
  /** Left out where it is asked for when opened. */
  because?: readonly Reason[] | undefined;
  /** Address that answers the reasons, as JSON of `Opened`. */
  ask?: string | undefined;
  firmness?: Firmness | undefined;
  /** What the figure is, for the heading and for screen readers: "Main jet". */
  name?: string | undefined;
  className?: string | undefined;
}

/** What a figure rests on, as an address answers it. */
export interface Opened {
  readonly because: readonly Reason[];
  readonly firmness?: Firmness | undefined;
}

/** What was fetched for a figure, which may be another one by now, or why nothing was. */
type Fetched = Opened | { readonly failed: true };

/** The reasons behind a figure: those given, else those fetched when it is opened. */
function useReasons({ because, firmness, ask }: Pick<OpensProps, "because" | "firmness" | "ask">) {
  const [fetched, setFetched] = useState<Fetched>();
  const [drawn, setDrawn] = useState(because !== undefined);
  const asked = useRef(0);
  const opened = async () => {
    if (ask === undefined) return;
    setDrawn(true);
    asked.current += 1;
    const turn = asked.current;
    const answer = await fetch(ask)
      .then((response): Promise<Fetched> | Fetched => (response.ok ? response.json() : { failed: true }))
      .catch((): Fetched => ({ failed: true }));
    if (turn === asked.current) setFetched(answer);
  };
  if (because) return { because, firmness, said: "", drawn, opened };
  if (fetched && "because" in fetched) return { ...fetched, said: "", drawn, opened };
  return { because: [], firmness, said: fetched ? words.noAnswerHere : words.looking, drawn, opened };
}

/** A figure that opens to the facts it rests on. The browser does the opening; Esc or a touch outside closes. */
export function Opens({ children, name, className, ...rest }: OpensProps) {
  const id = useId();
  const { because, firmness, said, drawn, opened } = useReasons(rest);
  return (
    <>
      <button
        type="button"
        popoverTarget={id}
        aria-haspopup="dialog"
        className={cx(
          "group inline-flex items-center justify-end text-start font-mono pointer-coarse:-my-3 pointer-coarse:min-h-12 pointer-coarse:min-w-12",
          className,
        )}
      >
        {name && <span className="sr-only">{name}: </span>}
        <span className="border-brass-fill border-b-2 border-dotted pb-0.5 group-hover:border-solid group-hover:border-brass print:border-0">
          {children}
        </span>
        <span className="sr-only">, {words.opens}</span>
      </button>
      {/* Spans throughout: a figure may stand in a paragraph, where no block may. */}
      <span
        id={id}
        popover="auto"
        role="dialog"
        aria-label={name ?? words.whatItRestsOn}
        className="pop"
        onBeforeToggle={(event) => event.newState === "open" && opened()}
      >
        {drawn && <Reasons name={name} because={because} firmness={firmness} said={said} />}
      </span>
    </>
  );
}

interface ReasonsProps extends Opened {
  name: string | undefined;
  /** Why there are none yet; empty where there are. */
  said: string;
}

/** What a figure rests on, fact by fact. */
function Reasons({ name, because, firmness, said }: ReasonsProps) {
  return (
    <>
      <span className="flex items-baseline justify-between gap-6 border-rule border-b px-4 pt-3 pb-2">
        <span className="font-semibold">{name ?? words.whatItRestsOn}</span>
        {firmness && (
          <State
            shape={firmness === "firm" ? "filled" : "circle"}
            tone={firmness === "firm" ? "pine" : "brass"}
          >
            {firmness === "firm" ? words.firm : words.starting}
          </State>
        )}
      </span>
      {said && (
        <span role="status" className="block px-4 py-2 text-[15px]">
          {said}
        </span>
      )}
      {/* biome-ignore lint/a11y/useSemanticElements: a list that may stand in a paragraph */}
      <span
        role="list"
        hidden={because.length === 0}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a long list scrolls, by keys as well
        tabIndex={0}
        className="block max-h-[50dvh] overflow-y-auto px-4 text-[15px]"
      >
        {because.map((reason, at) => (
          // biome-ignore lint/a11y/useSemanticElements: as above
          <span
            role="listitem"
            // biome-ignore lint/suspicious/noArrayIndexKey: two moves of one minute may read the same
            key={`${at} ${reason.fact}`}
            className="grid grid-cols-[minmax(0,1fr)_auto] gap-x-4 border-hair border-b py-2 last:border-0"
          >
            <span>{reason.fact}</span>
            {reason.effect && (
              <span className="max-w-40 text-end font-mono text-[14px]">{reason.effect}</span>
            )}
            <span className="col-span-2 text-[14px] text-soft">
              {reason.from}
              {reason.firmness && (
                <span className="text-ink">
                  , {reason.firmness === "firm" ? words.firm.toLowerCase() : words.judged}
                </span>
              )}
            </span>
          </span>
        ))}
      </span>
      {firmness === "starting point" && (
        <span className="block bg-brass-wash px-4 py-2 text-[14px]">{VERIFY}</span>
      )}
    </>
  );
}
