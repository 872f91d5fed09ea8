import { guessFile } from "@/lib/domain/imports/keyWays";
import type { ImportNoun } from "@/lib/domain/imports/types";
import { parseCsv } from "@/lib/schemas/csv";
import { ImportSchema } from "@/lib/schemas/imports";

/** A file as the screen posts it, with the columns and the key that are guessed. */
export function fileOf(noun: ImportNoun, text: string, more: Record<string, unknown> = {}) {
  const csv = parseCsv(text);
  const guess = guessFile(noun, csv.headings, csv.rows);
  const map = Object.fromEntries(
    Object.entries(guess.map).map(([key, column]) => [key, column === null ? "" : String(column)]),
  );
  return ImportSchema.parse({
    noun,
    fileName: `${noun}.csv`,
    text,
    map,
    way: guess.way,
    ...more,
  });
}
