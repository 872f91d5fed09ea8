import { z } from "zod";
import { LANGUAGES } from "@/lib/words/language";
import { recordId } from "./ids";

/** What a shop writes for its own texts in another language, by their keys. */
export const SaveWordsSchema = z.object({
  of: z.union([z.literal("shop"), recordId]),
  language: z.enum(LANGUAGES, "Choose one of these."),
  typed: z
    .record(
      z.string().max(60),
      z.object({
        said: z
          .string()
          .transform((text) => text.replace(/\r\n?/g, "\n").trim())
          .pipe(z.string().max(3000, "Keep this within 3,000 characters.")),
        version: z.coerce.number().int().min(0).max(2_147_483_647),
      }),
    )
    .default({}),
});
