import { z } from "zod";
import { oneLine } from "./oneLine";
import { readTyped } from "./typedNumber";

export const name = oneLine(120, "Keep the name within 120 characters.").min(1, "Give it a name.");
export const key = z.string().trim().min(1, "Choose one.").max(60);
export const keys = z.array(key).max(60).default([]);
export const why = z
  .string()
  .trim()
  .min(1, "Say why the rule is there.")
  .max(300, "Keep this within 300 characters.");
export const text = z.string().trim().max(2000, "Keep this within 2,000 characters.").default("");
export const ticked = z
  .string()
  .optional()
  .transform((value) => value !== undefined);

/** One entry a line. */
export const lines = z
  .string()
  .max(8000)
  .default("")
  .transform((typed) =>
    typed
      .split(/\r?\n/)
      .map((line) => line.trim())
      .filter(Boolean),
  )
  .pipe(z.array(z.string().max(2000)).max(40, "Keep this within 40 lines."));

export const minutes = (least: number) =>
  z
    .string()
    .max(40, `Enter whole minutes from ${least} to 6000.`)
    .default("")
    .transform((typed, context): number => {
      const value = readTyped(typed);
      if (typeof value === "number" && Number.isInteger(value) && value >= least && value <= 6000)
        return value;
      context.addIssue({ code: "custom", message: `Enter whole minutes from ${least} to 6000.` });
      return z.NEVER;
    });
