import { readNumber } from "../imports/numbers";
import type { FileRow, Mark } from "../imports/types";
import { Refusal } from "../refusal";
import { searchKey } from "../searchKey";

/** A column that a log may have, and the words its heading is known by. */
export interface LogColumn {
  readonly key: string;
  readonly name: string;
  readonly words: readonly string[];
}

export type LogMapping = Readonly<Record<string, number | null>>;

/** No word that a heading is known by is nearly as long. */
const TELLING = 100;
const bare = (text: string) => searchKey(text.slice(0, TELLING)).replace(/[^a-z0-9]/g, "");

const MOST_COLUMNS = 200;

/**
 * Which column holds what: as said ("3", or "none"), else by heading, whole words before beginnings, each column once.
 * Throws Refusal for a column the file has not, and for more than 200. Source of the words: judgement.
 */
export function mapColumns(
  columns: readonly LogColumn[],
  headings: readonly string[],
  said: Readonly<Record<string, string>>,
): LogMapping {
  if (headings.length > MOST_COLUMNS)
    throw new Refusal(
      `The file has ${headings.length} columns; at most ${MOST_COLUMNS} can be read.`,
      "Take out the columns that are not needed.",
    );
  const known = headings.map(bare);
  const mapping: Record<string, number | null> = {};
  for (const { key, name } of columns) {
    const text = said[key] ?? "";
    if (text === "") continue;
    const at = text === "none" ? null : Number(text);
    if (at !== null && !(Number.isInteger(at) && at >= 0 && at < headings.length))
      throw new Refusal(
        `The file has no column ${text} for ${name.toLowerCase()}.`,
        "Choose a column of this file.",
        { [`map.${key}`]: "Choose a column of this file." },
      );
    mapping[key] = at;
  }
  const taken = new Set(Object.values(mapping));
  const ways = [
    (h: string, w: string) => h === w,
    (h: string, w: string) => w.length >= 2 && h.startsWith(w),
    (h: string, w: string) => w.length >= 4 && h.includes(w),
  ];
  for (const matches of ways)
    for (const { key, words } of columns) {
      if (key in mapping) continue;
      const at = known.findIndex(
        (heading, i) => !taken.has(i) && words.some((word) => matches(heading, word)),
      );
      if (at < 0) continue;
      mapping[key] = at;
      taken.add(at);
    }
  return Object.fromEntries(columns.map(({ key }) => [key, mapping[key] ?? null]));
}

/** The column of a needed field. Throws Refusal naming it. */
export function neededColumn(mapping: LogMapping, key: string, name: string): number {
  const at = mapping[key];
  if (at === null || at === undefined)
    throw new Refusal(`No column is chosen for ${name.toLowerCase()}.`, "Choose the column it stands in.", {
      [`map.${key}`]: `Choose the column of ${name.toLowerCase()}.`,
    });
  return at;
}

/** A column as numbers. A cell that is none is refused by its row, or is not a number (NaN) where `loose`. */
export function numbersOf(
  rows: readonly FileRow[],
  column: number,
  heading: string,
  mark: Mark,
  key: string,
  loose = false,
): readonly number[] {
  // Most cells of a log are plain; they are read without the care that people's ways of writing need.
  const plain = mark === "." ? /^-?\d{1,15}(?:\.\d{1,15})?$/u : /^-?\d{1,15}(?:,\d{1,15})?$/u;
  return rows.map((row) => {
    const text = (row.cells[column] ?? "").trim();
    if (plain.test(text)) return Number(text.replace(",", "."));
    const read = readNumber(text, mark);
    if ("value" in read) return Number(read.value);
    if (loose) return Number.NaN;
    const message =
      text === ""
        ? `Row ${row.line}: "${heading}" is blank.`
        : `Row ${row.line}: "${text.slice(0, 40)}" in "${heading}" ${read.wrong}.`;
    throw new Refusal(message, "Mend that row, or choose another column.", { [`map.${key}`]: message });
  });
}
