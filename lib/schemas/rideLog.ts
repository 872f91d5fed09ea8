import type { z } from "zod";
import { LambdaSchema } from "./benchLogs";
import { formId } from "./ids";

/** A lambda log of a job's test ride: the log as on the bench, without a choice of bike. */
export const RideLogSchema = LambdaSchema.omit({ bike: true, act: true }).extend({
  jobId: formId(),
  version: formId(),
});
export type RideLogInput = z.output<typeof RideLogSchema> & { key?: string | undefined };
