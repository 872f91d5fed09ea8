import type { ReactNode } from "react";
import { dateText, figureText, instantText } from "./format";
import { Link } from "./Link";
import { moneyText } from "./moneyText";
import { State } from "./State";
import type { CellValue, TableColumn } from "./tableTypes";

/** What a cell shows, by its column's kind; null where there is nothing. */
export function cellText(
  column: TableColumn,
  value: CellValue | undefined,
  locale: string,
  zone: string,
): ReactNode {
  if (value === null || value === undefined || value === "") return null;
  if (typeof value === "number" && column.currency) return moneyText(value, column.currency, locale);
  if (typeof value === "number") return figure(figureText(value, locale, column.decimals), column.unit);
  if (typeof value === "string") {
    if (column.kind === "date") return <time dateTime={value}>{dateText(value, locale)}</time>;
    if (column.kind === "instant") return <time dateTime={value}>{instantText(value, locale, zone)}</time>;
    return column.kind === "figure" ? figure(value, column.unit) : value;
  }
  if ("minor" in value) return moneyText(value.minor, value.currency, locale);
  if ("word" in value)
    return (
      <>
        <State shape={value.shape} tone={value.tone}>
          {value.word}
        </State>
        {value.sub && <small>{value.sub}</small>}
      </>
    );
  if ("href" in value)
    return (
      <Link href={value.href} className="text-brass underline underline-offset-4">
        {value.text}
      </Link>
    );
  return (
    <span>
      {value.text} {value.sub && <small>{value.sub}</small>}
    </span>
  );
}

const figure = (text: string, unit: string | undefined): ReactNode =>
  unit ? (
    <span>
      {text} <span className="text-soft">{unit}</span>
    </span>
  ) : (
    text
  );
