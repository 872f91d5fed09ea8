import { Refusal } from "@/lib/domain/refusal";

/** Most columns of a file. The widest that we read by its headings has about twenty. */
export const MOST_COLUMNS = 200;

/** Lines that may be blank for each row that may stand: sheets are saved with gaps. */
const BLANK_PER_ROW = 2;
const LONGEST_HEADING = 100_000;

const QUOTE = 0x22;
const NEWLINE = 0x0a;
const RETURN = 0x0d;
const SPACE = 0x20;

/** The text without the blank lines at its end, of which sheets save up to a million. */
export function withoutBlankEnd(text: string, separator: string): string {
  const mark = separator.charCodeAt(0);
  let end = text.length;
  while (end > 0 && (text.charCodeAt(end - 1) <= SPACE || text.charCodeAt(end - 1) === mark)) end--;
  while (end < text.length && text.charCodeAt(end) !== NEWLINE && text.charCodeAt(end) !== RETURN) end++;
  return text.slice(0, end + 1);
}

/**
 * Refuses a text whose rows would have more cells, or which has more lines, than any file of ours: one look at each character,
 * before anything is made of them. A mark inside quotes, which begin a cell, is no separator.
 */
export function demandShape(text: string, separator: string, mostRows: number): void {
  const mark = separator.charCodeAt(0);
  let [quoted, begins, cells, line] = [false, true, 1, 1];
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    const ends = code === NEWLINE || (code === RETURN && text.charCodeAt(at + 1) !== NEWLINE);
    if (ends && ++line > mostRows * (1 + BLANK_PER_ROW) + 1)
      throw new Refusal(
        `The file has more than ${mostRows} rows, which is the most that can be read at once.`,
        "Take out blank lines, or split it into several files with the same heading.",
      );
    if (quoted) {
      if (code !== QUOTE) continue;
      if (text.charCodeAt(at + 1) === QUOTE) at++;
      else quoted = false;
      continue;
    }
    if (code === QUOTE && begins) quoted = true;
    if (ends) cells = 1;
    if (code === mark && ++cells > MOST_COLUMNS)
      throw new Refusal(
        `Line ${line} has more than ${MOST_COLUMNS} columns.`,
        "Take out the columns that are not needed, and choose the file again.",
      );
    begins = code === mark || ends;
  }
}

/** The first line that is not blank, as far as a heading can be long. */
export function headingOf(text: string): string {
  return /^\s*([^\r\n]*)/u.exec(text.slice(0, LONGEST_HEADING))?.[1] ?? "";
}
