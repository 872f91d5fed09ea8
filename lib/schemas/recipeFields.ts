import { z } from "zod";
import type { Recheck } from "../domain/packages/recipe";
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

/** Something to look at again after heat cycles, as typed: nothing where it is not said what. */
export const recheckFields = {
  recheckWhat: oneLine(160, "Keep this within 160 characters.").default(""),
  recheckKm: z.string().max(40).default(""),
  recheckDays: z.string().max(40).default(""),
};
type Typed = Readonly<Record<keyof typeof recheckFields, string>>;

export function recheckFrom(
  { recheckWhat, recheckKm, recheckDays }: Typed,
  tell: (field: string, message: string) => void,
): { recheck?: Recheck } {
  if (recheckWhat === "") return {};
  const whole = (field: "recheckKm" | "recheckDays", typed: string, most: number) => {
    const value = readTyped(typed);
    if (typeof value === "number" && Number.isInteger(value) && value >= 1 && value <= most) return value;
    tell(field, `Enter a whole number from 1 to ${most}.`);
    return 1;
  };
  const km = whole("recheckKm", recheckKm, 20_000);
  const days = whole("recheckDays", recheckDays, 1000);
  return { recheck: { what: recheckWhat, km, days } };
}
