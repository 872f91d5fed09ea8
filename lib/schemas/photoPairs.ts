import { z } from "zod";
import { PAIR_SUBJECTS } from "../domain/procedures/observing";
import { cursorId, recordId } from "./ids";
import { THROTTLES } from "./rides";
import { longText } from "./typedNumber";

export const PairSchema = z.object({
  bikeId: recordId,
  jobId: recordId.optional(),
  subject: z.enum(PAIR_SUBJECTS, "Say what the photos show."),
  throttle: z.enum(THROTTLES, "Say at which opening."),
  note: longText(500, "The note"),
});
export type PairInput = z.output<typeof PairSchema> & { key?: string | undefined };

export const RemovePairSchema = z.object({ pairId: recordId, version: recordId });

/** What pairs are looked for by, in an address; what is none of the choices is left out. */
export const PairSearchSchema = z.object({
  card: cursorId,
  subject: z.enum(PAIR_SUBJECTS).optional().catch(undefined),
  throttle: z.enum(THROTTLES).optional().catch(undefined),
  after: cursorId,
});
