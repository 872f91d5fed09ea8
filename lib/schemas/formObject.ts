/** Longest name of a field: the deepest of ours is well within it, and a name of dots nests as deep as it is long. */
const LONGEST_NAME = 200;

/**
 * A form's fields as an object: `a.b` nests, `a[]` collects. Files are left out; keys of ours start with _. Takes time in
 * proportion to the fields, however often a name comes again.
 */
export function formObject(data: FormData): Record<string, unknown> {
  const out: Record<string, unknown> = {};
  for (const [name, value] of data.entries()) {
    if (typeof value !== "string" || name.startsWith("_") || name.startsWith("$ACTION")) continue;
    if (name.length > LONGEST_NAME) continue;
    const list = name.endsWith("[]");
    const path = (list ? name.slice(0, -2) : name).split(".");
    if (path.includes("__proto__")) continue;
    let at = out;
    for (const part of path.slice(0, -1)) {
      if (!Object.hasOwn(at, part)) at[part] = {};
      at = at[part] as Record<string, unknown>;
      if (typeof at !== "object") return out;
    }
    const last = path.at(-1) as string;
    const before = Object.hasOwn(at, last) ? at[last] : undefined;
    if (!list) at[last] = value;
    else if (Array.isArray(before)) before.push(value);
    else at[last] = [value];
  }
  return out;
}
