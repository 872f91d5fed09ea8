import { z } from "zod";
import { MOST_BYTES, MOST_ROWS } from "@/lib/domain/imports/decode";
import { IMPORT_NOUNS, type ImportNoun } from "@/lib/domain/imports/types";

export const ImportNounSchema = z.enum(IMPORT_NOUNS as [ImportNoun, ...ImportNoun[]]);

/** A file to bring in, with the columns chosen: `map.<field>` is a column's place from 0, or blank. */
export const ImportSchema = z.object({
  noun: ImportNounSchema,
  fileName: z.string().max(200).default("file.csv"),
  // A posted form turns each line's end into two characters: the file itself was measured before.
  text: z
    .string("Choose a file first.")
    .min(1, "Choose a file first.")
    .max(
      MOST_BYTES + MOST_ROWS * 5,
      "The file is larger than 5 MB: split it into several with the same heading.",
    ),
  map: z
    .record(
      z.string(),
      z
        .string()
        .regex(/^\d{0,3}$/)
        .transform((column) => (column === "" ? null : Number(column))),
    )
    .default({}),
  mark: z.enum([".", ","]).default("."),
  distance: z.enum(["km", "mi"]).default("km"),
});
export type ImportInput = z.output<typeof ImportSchema>;
