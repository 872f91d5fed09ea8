import type { Pick, Picks } from "@/lib/schemas/picks";

/** Rows offered for what is typed. */
export const MOST_FOUND = 10;
/** Rows a page brings along: offered before anything is typed, and where no script runs. */
export const MOST_NEWEST = 30;
/** Letters of a label or of what stands beside it: ten rows stay under 8 KB whatever was typed into the records. */
const MOST_LETTERS = 56;

const short = (text: string) => [...text].slice(0, MOST_LETTERS).join("");

/** The rows to offer, out of one more than `most`. */
export function picksOf<R, P extends Pick>(rows: readonly R[], most: number, pick: (row: R) => P): Picks<P> {
  return {
    rows: rows.slice(0, most).map((row) => {
      const picked = pick(row);
      return { ...picked, label: short(picked.label), sub: short(picked.sub) };
    }),
    more: rows.length > most,
  };
}

/** What stands beside a label, blanks left out. */
export const beside = (...parts: readonly (string | number | null | undefined)[]): string =>
  parts.filter(Boolean).join(", ");

/** Nothing typed asks for the newest. */
export const isBlank = (text: string): boolean => text.trim() === "";
