import { z } from "zod";
import { formId } from "./ids";
import { oneLine } from "./oneLine";
import { milliOf } from "./quantity";
import { PRICE_E4, type Typed, typedQuantity, typedScaled } from "./typedFigures";

/** What is left empty counts as not sent. */
export const blank = (value: unknown) =>
  typeof value === "string" && value.trim() === "" ? undefined : value;
export const id = formId();
export const version = formId("Open the page again.");
export const short = (what: string, most: number) => oneLine(most, `${what}: at most ${most} letters.`);
export const optional = (what: string, most: number) => short(what, most).optional().default("");

/** A reader of what was typed, as a field's transform. */
export const reads =
  <T>(read: (text: string) => Typed<T>) =>
  (text: string, context: z.RefinementCtx): T => {
    const found = read(text);
    if ("value" in found) return found.value;
    context.addIssue({ code: "custom", message: found.wrong });
    return z.NEVER;
  };

/** A quantity typed in the part's unit, kept in thousandths. */
export const quantity = z
  .string({ error: "Enter how much." })
  .max(40, "Enter a number such as 3 or 12.5.")
  .transform(reads(typedQuantity));

export const countOf = z
  .string({ error: "Enter what you counted; 0 when the bin is empty." })
  .max(40, "Enter a number such as 3 or 12.5.")
  .transform((text, context) => {
    const milli = milliOf(text);
    if (milli !== null && milli >= 0) return milli;
    context.addIssue({ code: "custom", message: "Enter what you counted; 0 when the bin is empty." });
    return z.NEVER;
  });

export const orNothing = (most: number, message: string, scale: number, places: number) =>
  z.preprocess(
    blank,
    z
      .string()
      .max(40, message)
      .transform(reads((text) => typedScaled(text, { most, message, scale, places })))
      .optional()
      .transform((value) => value ?? null),
  );

export const moneyE4 = orNothing(PRICE_E4.most, PRICE_E4.message, PRICE_E4.scale, PRICE_E4.places);
export const milliOrNothing = orNothing(1e9, "Enter a number such as 142.5, or leave it empty.", 1000, 3);

/** Whole days, or nothing. */
export const whole = (what: string, most: number) =>
  z.preprocess(
    blank,
    z.coerce
      .number({ error: "Enter whole days, or leave it empty." })
      .int("Enter whole days.")
      .min(0, "Days cannot be less than 0.")
      .max(most, `${what}: at most ${most} days.`)
      .optional(),
  );

/** A day, or nothing; a form without the field leaves what is there. */
export const dayOrNothing = z.preprocess(
  (value) => (typeof value === "string" && value.trim() === "" ? null : value),
  z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/, "Enter a day, or leave it empty.")
    .nullable()
    .optional(),
);

/** A box that is not ticked is not sent. */
export const ticked = z
  .literal("true")
  .optional()
  .transform((sent) => sent !== undefined);

/** The day something happened, where that was not today. */
export const on = z.preprocess(
  blank,
  z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/, "Enter a day.")
    .optional(),
);

/** A bin that need not be named: nothing is the part's usual one. */
export const binOrUsual = z.preprocess(blank, short("Bin", 30).optional());
export const chosenBin = z
  .string()
  .max(40)
  .optional()
  .transform((text) => (text?.startsWith("in:") ? text.slice(3) : undefined));
