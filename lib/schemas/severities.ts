import { z } from "zod";
import { formId } from "./ids";
import { oneLine } from "./oneLine";
import { ticked } from "./recipeFields";
import { readTyped } from "./typedNumber";

/** A use that shortens intervals; an empty id is a new one. */
export const SeveritySchema = z.object({
  id: z
    .string()
    .regex(/^\d{0,15}$/, "Open the page again.")
    .default(""),
  version: formId("Open the page again.").default(1),
  name: oneLine(60, "Keep the name within 60 characters.").min(1, "Say what the use is."),
  factor: z
    .string()
    .trim()
    .max(10)
    .transform((typed, context): number => {
      const value = readTyped(typed);
      if (typeof value === "number" && value >= 1 && value <= 10) return value;
      context.addIssue({ code: "custom", message: "Enter 1 to 10, such as 2.5." });
      return z.NEVER;
    }),
  active: ticked,
});
export type SeverityInput = z.output<typeof SeveritySchema>;
