import { z } from "zod";
import { blank, chosenBin, countOf, id, optional, short, version } from "./stockFields";

export const StartCountSchema = z.object({
  bin: short("Bin", 30).min(1, "Choose a bin, or type what is written on it."),
});
export const FoundSchema = z.object({
  sheetId: id,
  code: short("Part", 120).min(1, "Scan or type what its label or bag says."),
});
/** The bins' list's place in the address bar; `after` is the last bin of the page before. */
export const BinListSchema = z.object({
  q: z.string().trim().max(30).catch("").default(""),
  after: z.string().max(60).catch("").default(""),
});
export type BinListQuery = z.output<typeof BinListSchema>;

/** What was counted, by part; a part that is not filled in is not counted. */
export const BinCountSchema = z.object({
  sheetId: id,
  version,
  counted: z.record(z.string().regex(/^\d+$/), z.preprocess(blank, countOf.optional())).default({}),
});
export const ApproveCountSchema = z.object({
  sheetId: id,
  version,
  why: optional("Note", 200),
  leaveOut: z
    .union([z.string().max(20), z.array(z.string().max(20)).max(2000)])
    .optional()
    .transform((sent) => [sent ?? []].flat().map(Number)),
});
export const CountSheetSchema = z.object({ sheetId: id, version });
export const CountSchema = z.object({
  partId: id,
  counted: countOf,
  bin: chosenBin,
  /** What lay there when the variance was shown: a move in between asks for a new count. */
  seenMilli: z.coerce.number().int().min(0),
  why: optional("Note", 200),
});
export const CountedSchema = countOf;
