/** A form's fields as an object: `a.b` nests, `a[]` collects. Files are left out; keys of ours start with _. */
export function formObject(data: FormData): Record<string, unknown> {
  const out: Record<string, unknown> = {};
  for (const [name, value] of data.entries()) {
    if (typeof value !== "string" || name.startsWith("_") || name.startsWith("$ACTION")) continue;
    const list = name.endsWith("[]");
    const path = (list ? name.slice(0, -2) : name).split(".");
    let at = out;
    for (const part of path.slice(0, -1)) {
      if (!Object.hasOwn(at, part)) at[part] = {};
      at = at[part] as Record<string, unknown>;
      if (typeof at !== "object") return out;
    }
    const last = path.at(-1) as string;
    if (last === "__proto__") continue;
    if (!list) at[last] = value;
    else at[last] = [...((at[last] as string[] | undefined) ?? []), value];
  }
  return out;
}
