import Papa from "papaparse";
import { MOST_ROWS } from "@/lib/domain/imports/decode";
import type { FileRow, RowProblem } from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import { demandShape, headingOf, withoutBlankEnd } from "./csvShape";

export interface ParsedCsv {
  readonly headings: readonly string[];
  readonly rows: readonly FileRow[];
  readonly problems: readonly RowProblem[];
}

/** The separator that stands most often in the heading, outside quotes. */
function separatorOf(text: string): string {
  const heading = headingOf(text).replace(/"[^"]*"/gu, "");
  const count = (mark: string) => heading.split(mark).length - 1;
  return [",", ";", "\t", "|"].reduce((best, mark) => (count(mark) > count(best) ? mark : best));
}

/**
 * Rows of a CSV text (RFC 4180, any of four separators), each with the line it begins on. Throws Refusal for no rows, too many,
 * or too many columns.
 */
export function parseCsv(text: string, mostRows = MOST_ROWS): ParsedCsv {
  const whole = text.replace(/^\uFEFF/u, "");
  const delimiter = separatorOf(whole);
  const filledPart = withoutBlankEnd(whole, delimiter);
  demandShape(filledPart, delimiter, mostRows);
  const body = filledPart.replace(/\r\n?/gu, "\n");
  const { data, errors } = Papa.parse<string[]>(body, { delimiter, newline: "\n", skipEmptyLines: false });
  let line = 1;
  const all = data.map((cells) => {
    const row = { line, cells };
    line += 1 + cells.reduce((n, cell) => n + (cell.match(/\n/gu)?.length ?? 0), 0);
    return row;
  });
  const filled = all.filter((row) => row.cells.some((cell) => cell.trim() !== ""));
  const [heading, ...rows] = filled;
  if (!heading || rows.length === 0)
    throw new Refusal(
      "The file has no rows under its heading.",
      "The first line names the columns; every line below it is one row.",
    );
  if (rows.length > mostRows)
    throw new Refusal(
      `The file has ${rows.length} rows; at most ${mostRows} can be read at once.`,
      "Split it into several files with the same heading.",
    );
  const problems = errors
    .filter((error) => error.type === "Quotes")
    .map((error) => ({
      line: all[error.row ?? 0]?.line ?? 1,
      column: "",
      value: "",
      wrong: "has a quotation mark that is not closed",
      remedy: "Close the quotes, or write a mark inside a text twice.",
    }));
  return { headings: heading.cells.map((cell) => cell.trim()), rows, problems };
}
