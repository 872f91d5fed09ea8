import { z } from "zod";
import { ACCOUNT_FORMS } from "@/lib/domain/money/account";
import { formId } from "./ids";
import { oneLine } from "./oneLine";

const part = oneLine(60, "Keep this within 60 characters.").default("");

/** An account as it is typed; readAccount says whether it can be right. Version 0: there is none yet. */
export const AccountSchema = z.object({
  version: z.coerce.number("Open the page again.").int("Open the page again.").min(0, "Open the page again."),
  form: z.enum(ACCOUNT_FORMS, "Choose how the account is written."),
  holder: oneLine(70, "Keep the name within 70 characters.").default(""),
  branch: part,
  number: part,
  iban: part,
  bic: part,
  kid: z
    .literal("on")
    .optional()
    .transform((ticked) => ticked === "on"),
});
export type AccountInput = z.output<typeof AccountSchema>;

export const NoAccountSchema = z.object({ version: formId("Open the page again.") });
