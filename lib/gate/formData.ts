export { formObject } from "../schemas/formObject";

/** What was typed, by field name, to be shown again after a refusal. Passwords are never sent back. */
export function typedValues(data: FormData): Record<string, string | string[]> {
  const typed: Record<string, string | string[]> = {};
  for (const [name, value] of data.entries()) {
    if (
      typeof value !== "string" ||
      name.startsWith("_") ||
      name.startsWith("$ACTION") ||
      /password/i.test(name)
    )
      continue;
    const before = typed[name];
    typed[name] = before === undefined ? value : [...(Array.isArray(before) ? before : [before]), value];
  }
  return typed;
}
