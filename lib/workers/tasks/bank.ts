import { MOST_LINES, readBankList } from "@/lib/domain/bank/readList";
import type { BankColumns, BankRow, BankTerms } from "@/lib/domain/bank/types";
import type { RowProblem } from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import { parseCsv } from "@/lib/schemas/csv";
import { type Slices, sliced } from "../slices";

export interface BankListAsked {
  readonly text: string;
  readonly columns: BankColumns;
  readonly terms: BankTerms;
}

interface BankListRead {
  readonly headings: readonly string[];
  readonly rows: Slices<BankRow>;
  readonly problems: Slices<RowProblem>;
}

/** A bank's list as lines of money, with every problem in the order of its rows. Throws Refusal. */
export function bankList({ text, columns, terms }: BankListAsked): BankListRead {
  const csv = parseCsv(text, MOST_LINES);
  if (Object.values(columns).some((column) => column !== null && column >= csv.headings.length))
    throw new Refusal("A column was chosen that this file does not have.", "Choose the columns again.");
  const { rows, problems } = readBankList(csv.headings, csv.rows, columns, terms);
  return {
    headings: csv.headings,
    rows: sliced<BankRow>(rows),
    problems: sliced<RowProblem>([...csv.problems, ...problems].sort((a, b) => a.line - b.line)),
  };
}
