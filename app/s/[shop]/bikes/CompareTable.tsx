import { Fragment } from "react";
import { Shape } from "@/app/_ui/Shape";
import type { SheetValue } from "@/lib/domain/sheets/check";
import { compareSheets } from "@/lib/domain/sheets/compare";
import { settingText } from "./settingText";

export interface ComparedSheet {
  readonly title: string;
  /** Null: there is no such sheet. */
  readonly values: readonly SheetValue[] | null;
}

export interface CompareTableProps {
  readonly caption: string;
  readonly sheets: readonly ComparedSheet[];
  readonly carburettors: readonly { readonly position: number; readonly label: string }[];
  readonly locale: string;
}

/** Setting sheets side by side; a value that differs from the one before it is bold with a diamond. */
export function CompareTable({ caption, sheets, carburettors, locale }: CompareTableProps) {
  const rows = compareSheets(sheets.map((sheet) => sheet.values));
  const groups = Map.groupBy(rows, (row) => row.carburettor);
  return (
    <table className="ledger">
      <caption className="sr-only">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">Setting</th>
          {sheets.map((sheet) => (
            <th key={sheet.title} scope="col" data-align="end">
              {sheet.title}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {[...groups].map(([position, settings]) => (
          <Fragment key={position}>
            {groups.size > 1 && (
              <tr>
                <th scope="rowgroup" colSpan={sheets.length + 1} className="pt-4!">
                  {carburettors.find((each) => each.position === position)?.label ??
                    `Carburettor ${position}`}
                </th>
              </tr>
            )}
            {settings.map((row) => (
              <tr key={row.setting}>
                <td data-first="">{row.name}</td>
                {row.cells.map((cell, at) => (
                  <td
                    key={sheets[at]?.title}
                    data-name={sheets[at]?.title}
                    data-align="end"
                    data-empty={cell ? undefined : ""}
                  >
                    {cell && (
                      <span>
                        {cell.differs && (
                          <>
                            <Shape shape="diamond" tone="brass" /> <span className="sr-only">differs: </span>
                          </>
                        )}
                        <span className={cell.differs ? "font-bold font-mono" : "font-mono"}>
                          {settingText(row, cell.value, locale)}
                        </span>{" "}
                        <span className="text-[13px] text-soft">{cell.how}</span>
                      </span>
                    )}
                  </td>
                ))}
              </tr>
            ))}
          </Fragment>
        ))}
      </tbody>
    </table>
  );
}
