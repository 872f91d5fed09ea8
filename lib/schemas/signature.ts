import { z } from "zod";
import { inkOf, MOST_SIGNATURE_TEXT, SIGNATURE, signatureStrokes } from "@/lib/domain/signature/strokes";
import { oneLine } from "./oneLine";

/**
 * Fields of a form in which somebody signs: their name, always, and what they drew on the glass, where they did. A name alone is
 * a signature too, typed: whoever cannot or will not draw signs that way.
 */
export const SIGNATURE_FIELDS = {
  signedBy: oneLine(120, "Keep the name within 120 characters.").pipe(
    z.string().min(2, "Write the name of whoever signs."),
  ),
  signature: z
    .string()
    .max(MOST_SIGNATURE_TEXT, "This is too much for a signature: clear it and sign again.")
    .default("")
    .superRefine((text, context) => {
      const strokes = signatureStrokes(text);
      const wrong = !strokes
        ? "This signature did not arrive whole: clear it and sign again."
        : strokes.length > 0 && inkOf(strokes) < SIGNATURE.leastInk
          ? "This is hardly more than a dot: sign again, or clear it and let the typed name stand."
          : "";
      if (wrong) context.addIssue({ code: "custom", message: wrong });
    }),
};

export interface SignatureInput {
  readonly signedBy: string;
  /** Strokes as text (lib/domain/signature); empty where the name alone was typed. */
  readonly signature: string;
}
