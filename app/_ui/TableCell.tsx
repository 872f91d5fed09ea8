import Link from "next/link";
import type { ReactNode } from "react";
import { DateText } from "./DateText";
import { Figure } from "./Figure";
import { Instant } from "./Instant";
import { Money } from "./Money";
import { State } from "./State";
import type { CellValue, TableColumn } from "./tableTypes";

export interface TableCellProps {
  column: TableColumn;
  value: CellValue | undefined;
  locale: string;
  zone: string;
}

/** What a cell shows, by its column's kind. */
export function TableCell({ column, value, locale, zone }: TableCellProps): ReactNode {
  if (value === null || value === undefined || value === "") return null;
  if (typeof value === "number")
    return <Figure value={value} locale={locale} decimals={column.decimals} unit={column.unit} />;
  if (typeof value === "string") {
    if (column.kind === "date") return <DateText date={value} locale={locale} />;
    if (column.kind === "instant") return <Instant at={value} locale={locale} zone={zone} />;
    return column.kind === "figure" ? <Figure value={value} unit={column.unit} /> : value;
  }
  if ("minor" in value) return <Money {...value} locale={locale} />;
  if ("word" in value)
    return (
      <State shape={value.shape} tone={value.tone}>
        {value.word}
      </State>
    );
  if ("href" in value)
    return (
      <Link href={value.href} prefetch={false} className="text-brass underline underline-offset-4">
        {value.text}
      </Link>
    );
  return (
    <span>
      {value.text} <span className="block text-[14px] text-soft">{value.sub}</span>
    </span>
  );
}
