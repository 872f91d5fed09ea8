import { State } from "@/app/_ui/State";
import type { RowProblem } from "@/lib/domain/imports/types";
import { unitPriceText } from "@/lib/domain/money/unitPrice";

export interface PriceListFound {
  readonly rows: number;
  readonly changes: readonly {
    readonly partId: number;
    readonly code: string;
    readonly name: string;
    readonly fromE4: number | null;
    readonly toE4: number;
  }[];
  readonly unchanged: number;
  readonly notOurs: number;
  readonly problems: readonly RowProblem[];
}

const change = (fromE4: number | null, toE4: number) =>
  fromE4 === null || fromE4 === 0
    ? "new"
    : `${toE4 > fromE4 ? "+" : "−"}${Math.abs(((toE4 - fromE4) / fromE4) * 100).toFixed(1)} %`;

/** Every row that is wrong, or every cost that changes, from what to what. */
export function PriceChanges({
  found,
  currency,
  locale,
  done,
}: {
  found: PriceListFound;
  currency: string;
  locale: string;
  done: boolean;
}) {
  const bad = new Set(found.problems.map((problem) => problem.line)).size;
  return (
    <div className="mb-5" role="status">
      {bad > 0 ? (
        <State shape="diamond" tone="oxide">
          {bad} of {found.rows} rows cannot be read, so none will be taken
        </State>
      ) : (
        <State shape="filled" tone="pine">
          {found.changes.length} costs {done ? "changed" : "change"}, {found.unchanged} stay, {found.notOurs}{" "}
          are parts you do not keep
        </State>
      )}
      <ul className="mt-3 max-h-[70dvh] overflow-y-auto border-rule border-t">
        {bad > 0
          ? found.problems.map((problem) => (
              <li
                key={`${problem.line} ${problem.column} ${problem.wrong}`}
                className="border-hair border-b py-2"
              >
                <span className="font-mono">line {problem.line}</span>{" "}
                {problem.column && <strong>{problem.column} </strong>}
                {problem.value && <span className="font-mono">"{problem.value}" </span>}
                {problem.wrong}. <span className="text-soft">{problem.remedy}</span>
              </li>
            ))
          : found.changes.map((row) => (
              <li
                key={row.partId}
                className="grid grid-cols-[minmax(0,1fr)_auto] items-baseline gap-x-4 border-hair border-b py-2 sm:grid-cols-[10rem_minmax(0,1fr)_auto_5rem]"
              >
                <span className="font-mono font-semibold">{row.code}</span>
                <span className="max-sm:order-3">{row.name}</span>
                <span className="text-end font-mono">
                  {row.fromE4 === null ? "–" : unitPriceText(row.fromE4, currency, locale)} →{" "}
                  {unitPriceText(row.toE4, currency, locale)}
                </span>
                <span className="text-end font-mono">{change(row.fromE4, row.toE4)}</span>
              </li>
            ))}
      </ul>
    </div>
  );
}
