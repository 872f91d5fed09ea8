"use client";
import type { Firmness, Reason } from "@/lib/domain/reason";
import { VERIFY } from "@/lib/domain/reason";
import { State } from "./State";
import { useReasons } from "./useReasons";
import { words } from "./words";

export interface ReasonsProps {
  because: readonly Reason[] | string;
  firmness: Firmness | undefined;
  name: string | undefined;
}

/** What a figure rests on: its heading, its reasons, and what to make of them. */
export function Reasons({ because, firmness, name }: ReasonsProps) {
  const reasons = useReasons(because);
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
      {typeof reasons === "string" ? (
        <span role="status" className="block px-4 py-2 text-[15px]">
          {reasons === "looking" ? words.looking : `${words.unreachable} ${words.openAgain}`}
        </span>
      ) : (
        <List reasons={reasons} />
      )}
      {firmness === "starting point" && (
        <span className="block bg-brass-wash px-4 py-2 text-[14px]">{VERIFY}</span>
      )}
    </>
  );
}

function List({ reasons }: { reasons: readonly Reason[] }) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a list that may stand in a paragraph
    <span
      role="list"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a long list scrolls, by keys as well
      tabIndex={0}
      className="block max-h-[50dvh] overflow-y-auto px-4 text-[15px]"
    >
      {reasons.map((reason, at) => (
        // biome-ignore lint/a11y/useSemanticElements: as above
        <span
          role="listitem"
          // biome-ignore lint/suspicious/noArrayIndexKey: two moves of one minute may read the same
          key={`${at} ${reason.fact}`}
          className="grid grid-cols-[minmax(0,1fr)_auto] gap-x-4 border-hair border-b py-2 last:border-0"
        >
          <span>{reason.fact}</span>
          {reason.effect && <span className="max-w-40 text-end font-mono text-[14px]">{reason.effect}</span>}
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
  );
}
