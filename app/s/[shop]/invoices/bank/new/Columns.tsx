"use client";
import { useId } from "react";
import { CONTROL } from "@/app/_ui/FieldFrame";
import { guessMark } from "@/lib/domain/bank/amounts";
import { guessDates } from "@/lib/domain/bank/dates";
import { guessColumns } from "@/lib/domain/bank/guess";
import {
  BANK_FIELDS,
  type BankColumns,
  type BankField,
  DATE_ORDERS,
  type DateOrder,
} from "@/lib/domain/bank/types";
import type { ParsedCsv } from "@/lib/schemas/csv";

/** What was chosen with the shop's last list, by headings. */
export interface KeptFormat {
  readonly columns: Readonly<Record<BankField, string | null>>;
  readonly dates: DateOrder;
  readonly mark: "." | ",";
}

export interface Usual {
  readonly usualDates: DateOrder;
  readonly usualMark: "." | ",";
}

export interface Chosen {
  readonly columns: BankColumns;
  readonly dates: DateOrder;
  readonly mark: "." | ",";
}

const FIELDS: Readonly<Record<BankField, { name: string; about: string }>> = {
  date: { name: "Day", about: "needed" },
  amount: { name: "Amount", about: "money in and out in one column" },
  moneyIn: { name: "Money in", about: "where it has a column of its own" },
  moneyOut: { name: "Money out", about: "where it has a column of its own" },
  text: { name: "Text", about: "what the payer wrote" },
  reference: { name: "Reference", about: "or KID, where it has a column of its own" },
  payer: { name: "Payer", about: "" },
};

const ORDER_NAMES = { dmy: "day, month, year", mdy: "month, day, year", ymd: "year, month, day" } as const;

const column = (csv: ParsedCsv, at: number | null) =>
  at === null ? [] : csv.rows.flatMap((row) => row.cells[at]?.trim() || []).slice(0, 200);

/** As with the last list where its headings are the same; else guessed by headings and by what stands below them. */
export function termsFor(csv: ParsedCsv, kept: KeptFormat | null, { usualDates, usualMark }: Usual): Chosen {
  const named = kept && BANK_FIELDS.filter((field) => kept.columns[field] !== null);
  if (kept && named?.every((field) => csv.headings.includes(kept.columns[field] ?? ""))) {
    const at = (field: BankField) => {
      const heading = kept.columns[field];
      return heading === null ? null : csv.headings.indexOf(heading);
    };
    const columns = Object.fromEntries(BANK_FIELDS.map((field) => [field, at(field)])) as BankColumns;
    return { columns, dates: kept.dates, mark: kept.mark };
  }
  const columns = guessColumns(csv.headings);
  const amounts = [columns.amount, columns.moneyIn, columns.moneyOut].flatMap((at) => column(csv, at));
  return {
    columns,
    dates: guessDates(column(csv, columns.date), usualDates),
    mark: guessMark(amounts, usualMark),
  };
}

const GRID =
  "grid items-center gap-x-4 gap-y-1 border-hair border-b py-2 sm:grid-cols-[200px_minmax(0,260px)_minmax(0,1fr)]";

/** Which column of the file is what, and how days and amounts are written; guessed, open to change. */
export function BankColumnsChoice({
  csv,
  chosen,
  onChoose,
}: {
  csv: ParsedCsv;
  chosen: Chosen;
  onChoose: (chosen: Chosen) => void;
}) {
  const id = useId();
  const example = (at: number | null) => column(csv, at)[0]?.slice(0, 40) ?? "";
  return (
    <>
      {BANK_FIELDS.map((field) => (
        <div key={field} className={GRID}>
          <label htmlFor={id + field}>
            <span className="font-semibold">{FIELDS[field].name}</span>{" "}
            <span className="text-[14px] text-soft">{FIELDS[field].about}</span>
          </label>
          <select
            id={id + field}
            value={chosen.columns[field] ?? ""}
            onChange={({ currentTarget: { value } }) =>
              onChoose({
                ...chosen,
                columns: { ...chosen.columns, [field]: value === "" ? null : Number(value) },
              })
            }
            className={CONTROL}
          >
            <option value="">not in the file</option>
            {csv.headings.map((heading, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place; two may have one heading
              <option key={at} value={at}>
                {heading || `Column ${at + 1}`}
              </option>
            ))}
          </select>
          <span className="min-w-0 truncate font-mono text-[14px] text-soft">
            {example(chosen.columns[field])}
          </span>
        </div>
      ))}
      <div className={GRID}>
        <label htmlFor={`${id}dates`} className="font-semibold">
          Days are written
        </label>
        <select
          id={`${id}dates`}
          value={chosen.dates}
          onChange={({ currentTarget: { value } }) =>
            onChoose({ ...chosen, dates: DATE_ORDERS.find((one) => one === value) ?? chosen.dates })
          }
          className={CONTROL}
        >
          {DATE_ORDERS.map((order) => (
            <option key={order} value={order}>
              {ORDER_NAMES[order]}
            </option>
          ))}
        </select>
      </div>
      <div className={GRID}>
        <label htmlFor={`${id}mark`} className="font-semibold">
          An amount such as 1,250 or 1.250
        </label>
        <select
          id={`${id}mark`}
          value={chosen.mark}
          onChange={({ currentTarget: { value } }) =>
            onChoose({ ...chosen, mark: value === "," ? "," : "." })
          }
          className={CONTROL}
        >
          <option value=".">1,250 is a thousand and more</option>
          <option value=",">1,250 is one and a quarter</option>
        </select>
      </div>
    </>
  );
}
