"use client";
import { DateText } from "@/app/_ui/DateText";
import { Money } from "@/app/_ui/Money";
import { State } from "@/app/_ui/State";
import type { RowProblem } from "@/lib/domain/imports/types";

export interface ListView {
  readonly added: number;
  readonly incoming: number;
  readonly known: number;
  readonly problems: readonly RowProblem[];
  readonly first: readonly {
    readonly line: number;
    readonly bookedOn: string;
    readonly amountMinor: number;
    readonly text: string;
    readonly payer: string;
  }[];
}

/** What a list would bring: how its first rows were understood, what is new, and every row that cannot be read. */
export function ListFindings({
  view,
  currency,
  locale,
}: {
  view: ListView;
  currency: string;
  locale: string;
}) {
  const { added, incoming, known, problems } = view;
  return (
    <div className="mt-4" role="status">
      <p>
        <State shape={added > 0 ? "filled" : "circle"} tone={added > 0 ? "pine" : "soft"}>
          {added} {added === 1 ? "line is" : "lines are"} new
        </State>
        {added > 0 && `, ${incoming} of them money that came in`}
        {known > 0 && `; ${known} ${known === 1 ? "is" : "are"} here already`}
      </p>
      {view.first.length > 0 && (
        <>
          <p className="mt-3 text-[14px] text-soft">The first rows as they were understood:</p>
          <ul className="border-rule border-t">
            {view.first.map((line) => (
              <li key={line.line} className="border-hair border-b py-2">
                <span className="flex justify-between gap-4">
                  <DateText date={line.bookedOn} locale={locale} />
                  <Money minor={line.amountMinor} currency={currency} locale={locale} />
                </span>
                <span className="block break-words text-[14px]">
                  {[line.payer, line.text].filter(Boolean).join(": ")}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
      {problems.length > 0 && (
        <>
          <p className="mt-3">
            <State shape="diamond" tone="oxide">
              {problems.length} {problems.length === 1 ? "row" : "rows"} cannot be read and will be left out
            </State>
          </p>
          <ul className="max-h-[70dvh] overflow-y-auto border-rule border-t">
            {problems.map((problem) => (
              <li
                key={`${problem.line} ${problem.column}`}
                className="grid gap-x-4 border-hair border-b py-2 sm:grid-cols-[7rem_minmax(0,1fr)]"
              >
                <span className="font-mono">line {problem.line}</span>
                <span>
                  {problem.column && <strong>{problem.column} </strong>}
                  {problem.value && <span className="font-mono">"{problem.value}" </span>}
                  {problem.wrong}. <span className="text-soft">{problem.remedy}</span>
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
