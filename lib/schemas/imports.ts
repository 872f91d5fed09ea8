import { z } from "zod";
import { MOST_BYTES, MOST_ROWS } from "@/lib/domain/imports/decode";
import { KEY_WAYS, type KeyWay } from "@/lib/domain/imports/keyWays";
import { IMPORT_NOUNS, type ImportNoun } from "@/lib/domain/imports/types";
import { formId } from "./ids";

export const ImportNounSchema = z.enum(IMPORT_NOUNS as [ImportNoun, ...ImportNoun[]]);

const DOUBLE_CHOICES = ["update", "both", "skip"] as const;

const whole = (low: number, high: number, what: string) =>
  z.coerce
    .number(`Enter ${what}.`)
    .int(`Enter ${what}.`)
    .min(low, `Enter ${what}.`)
    .max(high, `Enter ${what}.`);

/** The smallest model card. */
const CardAnswerSchema = z.object({
  make: z.string().min(1).max(60),
  model: z.string().min(1).max(60),
  displacementCc: whole(20, 3000, "a displacement from 20 to 3000 cc"),
  cylinders: whole(1, 6, "1 to 6 cylinders"),
  carburettors: whole(1, 4, "1 to 4 carburettors"),
  carburettorType: z.enum(["constant vacuum", "mechanical slide"], "Choose the type."),
});

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
  /** How its rows are known: see KeyWay. */
  way: z.enum(KEY_WAYS as [KeyWay, ...KeyWay[]]).default("column"),
  /** What is done with rows that are probably here already: of all of them, and of single lines. */
  doubles: z.enum(["", ...DOUBLE_CHOICES]).default(""),
  double: z.record(z.string().regex(/^\d{1,7}$/), z.enum(DOUBLE_CHOICES)).default({}),
  /** Cards that were described for models without one; those left blank are asked about again. */
  cards: z
    .record(z.string().regex(/^\d{1,3}$/), z.record(z.string(), z.string().max(120)))
    .default({})
    .transform((cards, context) => {
      const filled = Object.entries(cards).filter(([, card]) => card.displacementCc || card.carburettorType);
      return Object.fromEntries(
        filled.flatMap(([at, card]) => {
          const read = CardAnswerSchema.safeParse(card);
          if (read.success) return [[at, read.data]];
          for (const issue of read.error.issues)
            context.addIssue({ ...issue, path: [at, ...issue.path], code: "custom", input: card });
          return [];
        }),
      );
    }),
});
export type ImportInput = z.output<typeof ImportSchema>;

/** An import that was brought in. */
export const RunSchema = z.object({ id: formId() });
