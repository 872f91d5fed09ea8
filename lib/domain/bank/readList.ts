import type { FileRow, RowProblem } from "../imports/types";
import { readAmount } from "./amounts";
import { readDay } from "./dates";
import type { BankColumns, BankField, BankRow, BankTerms } from "./types";

/** So large may a bank's list be: 2,000 rows have a tenth of it. */
export const MOST_LIST_BYTES = 1_000_000;

/** So many lines are read at once: a month of a busy shop (judgement). */
export const MOST_LINES = 2000;
const MOST_TEXT = 300;
const MOST_PAYER = 120;

export interface ReadBankList {
  readonly rows: readonly BankRow[];
  readonly problems: readonly RowProblem[];
}

/**
 * The rows of a bank's list as lines of money, with what is wrong with every row that is none. Lines that say the same are told
 * apart by counting them, so that the same file gives the same keys again.
 */
export function readBankList(
  headings: readonly string[],
  rows: readonly FileRow[],
  columns: BankColumns,
  terms: BankTerms,
): ReadBankList {
  const read: BankRow[] = [];
  const problems: RowProblem[] = [];
  const seen = new Map<string, number>();
  const counted = (said: string) => {
    const times = (seen.get(said) ?? 0) + 1;
    seen.set(said, times);
    return `${said}\u001f${times}`;
  };
  for (const row of rows) {
    const found = lineOf(row, headings, columns, terms);
    if ("wrong" in found) problems.push(found);
    else
      read.push({
        ...found,
        key: counted(["line", found.bookedOn, found.amountMinor, found.text, found.payer].join("\u001f")),
        rowKey: counted(["row", ...row.cells.map((cell) => cell.trim())].join("\u001f")),
      });
  }
  return { rows: read, problems };
}

function lineOf(
  { line, cells }: FileRow,
  headings: readonly string[],
  columns: BankColumns,
  terms: BankTerms,
): Omit<BankRow, "key" | "rowKey"> | RowProblem {
  const cell = (field: BankField) => (columns[field] === null ? "" : (cells[columns[field]] ?? "").trim());
  const problem = (field: BankField, wrong: string, remedy: string): RowProblem => ({
    line,
    column: columns[field] === null ? "" : (headings[columns[field]] ?? ""),
    value: cell(field).slice(0, 60),
    wrong,
    remedy,
  });
  const bookedOn = readDay(cell("date"), terms.dates);
  if (bookedOn === null)
    return problem(
      "date",
      cell("date") === "" ? "is blank" : "is no day in the order that was chosen",
      "Choose another order of day, month and year, or mend the row.",
    );
  const amount = amountIn(cell, terms);
  if ("wrong" in amount) return problem(amount.field, amount.wrong, amount.remedy);
  return {
    line,
    bookedOn,
    amountMinor: amount.minor,
    text: oneLine([cell("reference"), cell("text")].filter(Boolean).join(" "), MOST_TEXT),
    payer: oneLine(cell("payer"), MOST_PAYER),
  };
}

const oneLine = (text: string, most: number) =>
  text
    .slice(0, most * 4)
    .replace(/[\s\p{Cc}\p{Zl}\p{Zp}]+/gu, " ")
    .trim()
    .slice(0, most);

type Amount =
  | { readonly minor: number }
  | { readonly field: BankField; readonly wrong: string; readonly remedy: string };

/** What moved: the one amount, or what came in less what went out, whichever sign that has. */
function amountIn(cell: (field: BankField) => string, { mark, currency }: BankTerms): Amount {
  let minor = 0;
  for (const field of ["amount", "moneyIn", "moneyOut"] as const) {
    const text = cell(field);
    if (text === "") continue;
    const read = readAmount(text, mark, currency);
    if ("wrong" in read) return { field, ...read };
    minor +=
      field === "amount" ? read.minor : field === "moneyIn" ? Math.abs(read.minor) : 0 - Math.abs(read.minor);
  }
  if (minor !== 0) return { minor };
  const field = cell("amount") === "" && cell("moneyIn") !== "" ? "moneyIn" : "amount";
  return {
    field,
    wrong: "moves no money",
    remedy: "Leave it out, or choose the column that has the amount.",
  };
}
