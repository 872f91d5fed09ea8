import { z } from "zod";
import { formId, recordId } from "./ids";
import { creditReason } from "./invoices";
import { FATES } from "./typedCredit";

const typed = z.string().trim().max(30, "Enter it in figures.").default("");
const blankFate = (value: unknown) => (value === "" ? undefined : value);

const CreditLineSchema = z.object({
  key: z.string().max(300),
  /** How much of it, in its unit; of labour, minutes. */
  quantity: typed,
  amount: typed,
  fate: z.preprocess(blankFate, z.enum(FATES).optional()),
});
export type TypedCreditLine = z.output<typeof CreditLineSchema>;

/** A form's lines, numbered from 0, in their order. */
const lines = z.preprocess(
  (value) =>
    value && typeof value === "object" && !Array.isArray(value)
      ? Object.entries(value)
          .sort(([one], [other]) => Number(one) - Number(other))
          .map(([, line]) => line)
      : (value ?? []),
  z.array(CreditLineSchema).max(500),
);

export const CreditPartSchema = z.object({
  id: recordId,
  version: formId("Open the page again."),
  lines,
  /** An amount off the whole, in place of lines. */
  whole: typed,
  reason: creditReason,
  corrected: z.literal("on").optional(),
  /** Whether the time of labour that is credited was spent, or is to be corrected. */
  time: z.enum(["stays", "correct"]).default("stays"),
  earlier: z.literal("on").optional(),
});
