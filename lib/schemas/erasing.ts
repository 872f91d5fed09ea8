import { z } from "zod";
import { RemoveRecordSchema } from "./ids";

/** A customer to be erased, as the page that was looked at knew them, and a tick that says so. */
export const EraseCustomerSchema = RemoveRecordSchema.extend({
  sure: z.literal("on", "Tick this first: it cannot be undone."),
});

/** A shop to be erased, its name typed. */
export const EraseShopSchema = z.object({ name: z.string().max(200) });
