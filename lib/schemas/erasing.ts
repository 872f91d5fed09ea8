import { z } from "zod";
import { RemoveRecordSchema } from "./ids";

/** A customer to be erased, as the page that was looked at knew them, and a tick that says so. */
export const EraseCustomerSchema = RemoveRecordSchema.extend({
  sure: z.literal("on", "Tick this first: it cannot be undone."),
});
