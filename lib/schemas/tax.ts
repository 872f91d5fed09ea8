import { z } from "zod";
import { oneLine } from "./oneLine";
import { ticked } from "./recipeFields";

export const RegisteredSchema = z.object({ inCompanyRegister: ticked });

const day = z.iso.date("Choose a day.");
const said = z
  .string()
  .default("")
  .transform((text) => text.trim())
  .pipe(oneLine(200, "Keep this within 200 characters."));
/** What was closed as the page was shown. */
const seen = z.union([z.literal(""), z.iso.date()]);

export const CloseBooksSchema = z.object({ throughDay: day, reason: said, seen });
export const ReopenBooksSchema = z.object({
  fromDay: day,
  reason: said.pipe(z.string().min(3, "Say why it is reopened.")),
  seen,
});
