import type { PrintedLine } from "./printed";

/**
 * The code, among `parts`, of the part that a line charges; null for none. A line's key is its part's code, after the key of its work,
 * the number of its variation or the place it was left open for, and before the kit that it came out of.
 */
export function partOfLine(
  { key, kit }: Pick<PrintedLine, "key" | "kit">,
  parts: readonly { readonly code: string }[],
): string | null {
  const suffix = kit ? ` in ${kit.code}` : "";
  const own = suffix !== "" && key.endsWith(suffix) ? key.slice(0, -suffix.length) : key;
  const codes = parts
    .map((part) => part.code)
    .filter((code) => own === code || (own.endsWith(code) && ":-".includes(own.at(-1 - code.length) ?? "")));
  return codes.sort((one, other) => other.length - one.length)[0] ?? null;
}
