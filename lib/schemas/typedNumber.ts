import { z } from "zod";
import { oneLine } from "./oneLine";

export interface NumberRule {
  /** The field's name as the person reads it. */
  readonly name: string;
  readonly low: number;
  readonly high: number;
  readonly unit?: string;
  readonly whole?: boolean;
}

/** A number as typed into a form: "12.5", "12,5", "1 250"; blank is null and anything else undefined. */
export function readTyped(text: string): number | null | undefined {
  const bare = text.replace(/[\s\u00a0\u202f]/gu, "").replace("−", "-");
  if (bare === "") return null;
  return /^-?\d+(?:[.,]\d+)?$/u.test(bare) ? Number(bare.replace(",", ".")) : undefined;
}

/** What is wrong with a typed number, and what to enter instead; undefined when nothing is. */
export function numberProblem(value: number | undefined, rule: NumberRule): string | undefined {
  const unit = rule.unit ? ` ${rule.unit}` : "";
  const range = `from ${rule.low} to ${rule.high}${unit}`;
  if (value === undefined)
    return `${rule.name} is no number: enter one ${range}, without a mark between thousands.`;
  if (rule.whole && !Number.isInteger(value))
    return `${rule.name} is ${value}: enter a whole number ${range}, without a mark between thousands.`;
  if (value < rule.low || value > rule.high)
    return `${rule.name} is ${value}${unit}, outside ${rule.low} to ${rule.high}${unit}: enter one ${range}.`;
  return undefined;
}

/** A number field that may stay blank: null then, never 0. */
export function typedNumber(rule: NumberRule) {
  return z
    .string()
    .max(60, `${rule.name} is no number: enter one from ${rule.low} to ${rule.high}.`)
    .default("")
    .transform((text, context): number | null => {
      const value = readTyped(text);
      if (value === null) return null;
      const problem = numberProblem(value, rule);
      if (!problem && value !== undefined) return value;
      context.addIssue({ code: "custom", message: problem ?? "" });
      return z.NEVER;
    });
}

/** A number field that must be filled. */
export function neededNumber(rule: NumberRule) {
  return typedNumber(rule).transform((value, context): number => {
    if (value !== null) return value;
    context.addIssue({
      code: "custom",
      message: `${rule.name} is blank: enter a number from ${rule.low} to ${rule.high}.`,
    });
    return z.NEVER;
  });
}

/** The version a form was drawn with; or, once the person has seen what changed, the one they chose to write over. */
export const seenVersion = {
  version: z
    .string()
    .regex(/^\d{1,9}$/)
    .transform(Number)
    .optional(),
  over: z.record(z.string().regex(/^\d{1,9}$/), z.string().max(40)).optional(),
};

/** The version an edit may replace: the one drawn, unless a newer one was shown and "save mine" ticked. */
export function versionToReplace(input: {
  version?: number | undefined;
  over?: Record<string, string> | undefined;
}): number {
  const shown = Object.keys(input.over ?? {}).map(Number);
  return Math.max(input.version ?? 0, ...shown);
}

export const shortText = (max: number, name: string) =>
  z
    .string()
    .default("")
    .transform((text) => text.trim())
    .pipe(oneLine(max, `${name} is longer than ${max} characters: shorten it.`));

/** As shortText, over several lines. */
export const longText = (max: number, name: string) =>
  z
    .string()
    .default("")
    .transform((text) => text.trim())
    .pipe(z.string().max(max, `${name} is longer than ${max} characters: shorten it.`));

export const neededText = (max: number, name: string, example: string) =>
  z
    .string()
    .default("")
    .transform((text) => text.trim())
    .pipe(
      oneLine(max, `${name} is longer than ${max} characters: shorten it.`).min(
        1,
        `${name} is blank: enter it, such as ${example}.`,
      ),
    );
