import { z } from "zod";
import { MOST_KEEP_YEARS } from "../domain/invoices/keeping";
import { RemoveRecordSchema } from "./ids";
import { typedNumber } from "./typedNumber";

/** A customer to be erased, as the page that was looked at knew them, and a tick that says so. */
export const EraseCustomerSchema = RemoveRecordSchema.extend({
  sure: z.literal("on", "Tick this first: it cannot be undone."),
});

/** For how many years documents of erased customers are kept whole; blank is the country's rule. */
export const KeepYearsSchema = z.object({
  years: typedNumber({ name: "The years", low: 1, high: MOST_KEEP_YEARS, unit: "years", whole: true }),
});

/** A shop to be erased, its name typed. */
export const EraseShopSchema = z.object({ name: z.string().max(200) });
