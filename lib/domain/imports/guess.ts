import { searchKey } from "../searchKey";
import { IMPORT_FIELDS } from "./fields";
import type { ImportNoun } from "./types";

/** No known word is nearly as long. */
const TELLING = 100;
/** A heading without marks, case, spaces and signs. */
export const bareHeading = (heading: string): string =>
  searchKey(heading.slice(0, TELLING)).replace(/[^a-z0-9]/g, "");

/**
 * Which column probably holds which field, by its heading: first headings that are exactly a known word, then
 * headings that begin with one of four letters or more ("Cost AUD", "Price (ex tax)"). A column is guessed once. Source: judgement.
 */
export function guessMapping(noun: ImportNoun, headings: readonly string[]): Record<string, number | null> {
  const fields = IMPORT_FIELDS[noun];
  const guess: Record<string, number | null> = Object.fromEntries(fields.map((field) => [field.key, null]));
  const free = new Map(headings.map((heading, column) => [column, bareHeading(heading)]));
  const take = (fits: (heading: string, word: string) => boolean) => {
    for (const field of fields) {
      if (guess[field.key] !== null) continue;
      for (const word of field.headings) {
        const column = [...free].find(([, heading]) => fits(heading, word))?.[0];
        if (column === undefined) continue;
        guess[field.key] = column;
        free.delete(column);
        break;
      }
    }
  };
  take((heading, word) => heading === word);
  take((heading, word) => word.length >= 4 && heading.startsWith(word));
  return guess;
}
