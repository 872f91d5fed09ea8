import { z } from "zod";
import { oneLine } from "./oneLine";
import { id, version } from "./packages";
import { milliOf } from "./quantity";
import { rows } from "./recipeRows";

/** A part of a kit as it is typed: by its code. */
export interface KitRow {
  readonly code: string;
  readonly quantityMilli: number;
}

/** Most parts of one kit. */
const MOST_KIT_PARTS = 40;

const partRows = rows<KitRow>(MOST_KIT_PARTS, ["code"], (row, tell) => {
  const code = (row.code ?? "").trim();
  const quantityMilli = milliOf((row.quantity ?? "").trim() || "1");
  if (code.length > 60) return tell("code", "Keep this within 60 characters.");
  if (quantityMilli === null || quantityMilli <= 0 || quantityMilli > 1_000_000)
    return tell("quantity", "Enter a quantity above 0, to 1000, such as 1 or 2.5.");
  return { code, quantityMilli };
});

/** A kit as the form sends it; without an id, a new one. */
export const KitSchema = z.object({
  id: id.optional(),
  version: version.optional(),
  code: z
    .string()
    .trim()
    .min(1, "Give the kit a short code.")
    .max(40, "Keep the code within 40 characters.")
    .regex(/^[\p{L}\p{N}][\p{L}\p{N}./-]*$/u, "Use letters, figures and hyphens, without spaces."),
  name: oneLine(120, "Keep the name within 120 characters.").min(1, "Give the kit a name."),
  fits: oneLine(120, "Keep this within 120 characters.").default(""),
  price: z.string().trim().max(30, "Enter an amount such as 19.90, or leave it empty.").default(""),
  parts: partRows.refine((parts) => parts.length > 0, "Name one part at least."),
});
export type KitInput = z.output<typeof KitSchema>;

export const RetireKitSchema = z.object({ id, version, active: z.enum(["yes", "no"]) });

/** A kit opened into the parts of a package's option. */
export const KitIntoOptionSchema = z.object({
  packageId: id,
  kitId: id,
  option: z.string().trim().min(1, "Choose the option.").max(60),
});

/** A kit put on a quote as a work of its own. */
export const KitOnQuoteSchema = z.object({
  id,
  version,
  kitId: id,
  count: z.coerce
    .number("Enter how many kits.")
    .int("Enter whole kits.")
    .min(1, "Enter 1 or more.")
    .max(100, "At most 100 at once."),
});
export type KitOnQuoteInput = z.output<typeof KitOnQuoteSchema>;
