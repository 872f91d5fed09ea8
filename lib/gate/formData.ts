import { Refusal } from "@/lib/domain/refusal";

export { formObject } from "../schemas/formObject";

/** Most fields of one form. The largest of ours, a long count of a bin, has a few hundred. */
export const MOST_FIELDS = 2000;

/** Most characters that a form's names and values come to: what people type, and forms that carry a file's text. */
export const FORM_SIZES = { typed: 1_000_000, file: 6_000_000 } as const;
export type FormSize = keyof typeof FORM_SIZES;

/** Most characters sent back with a refusal. A page with scripts keeps what was typed by itself. */
const MOST_ECHOED = 100_000;

/** Refuses a form with more fields, or more in them, than one of its kind can have. */
export function demandSize(data: FormData, size: FormSize): void {
  let [fields, characters] = [0, 0];
  for (const [name, value] of data.entries()) {
    fields += 1;
    characters += name.length + (typeof value === "string" ? value.length : value.size);
    if (fields > MOST_FIELDS)
      throw new Refusal(
        `This form has more than ${MOST_FIELDS} fields. Nothing was saved.`,
        "Send it in several parts.",
      );
    if (characters > FORM_SIZES[size])
      throw new Refusal(
        `What was sent is longer than ${FORM_SIZES[size] / 1_000_000} MB. Nothing was saved.`,
        "Shorten it, or send it in several parts.",
      );
  }
}

/**
 * What was typed, by field name, to be shown again after a refusal: as many of the fields as fit in a bounded answer. Passwords
 * are never sent back.
 */
export function typedValues(data: FormData): Record<string, string | string[]> {
  const typed = new Map<string, string | string[]>();
  let [fields, left] = [0, MOST_ECHOED];
  for (const [name, value] of data.entries()) {
    if (++fields > MOST_FIELDS) break;
    if (typeof value !== "string" || name.length + value.length > left) continue;
    if (name.startsWith("_") || name.startsWith("$ACTION") || /password/i.test(name)) continue;
    left -= name.length + value.length;
    const before = typed.get(name);
    if (Array.isArray(before)) before.push(value);
    else typed.set(name, before === undefined ? value : [before, value]);
  }
  return Object.fromEntries(typed);
}
