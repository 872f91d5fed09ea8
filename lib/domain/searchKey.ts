/**
 * The normalised text a record is found by: lower case, marks removed, single spaces, parts joined.
 * Both what is stored and what is typed go through it. Source: Unicode NFKD (UAX 15).
 */
export function searchKey(...parts: readonly (string | number | null | undefined)[]): string {
  return parts
    .filter((part) => part !== null && part !== undefined && part !== "")
    .join(" ")
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/ø/g, "o")
    .replace(/æ/g, "ae")
    .replace(/ß/g, "ss")
    .replace(/\s+/g, " ")
    .trim();
}
