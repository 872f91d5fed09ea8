import type { z } from "zod";
import { LambdaSchema } from "./benchLogs";
import { idField } from "./jobs";

/** A lambda log of a job's test ride: the log as on the bench, without a choice of bike. */
export const RideLogSchema = LambdaSchema.omit({ bike: true, act: true }).extend({
  jobId: idField,
  version: idField,
});
export type RideLogInput = z.output<typeof RideLogSchema> & { key?: string | undefined };
