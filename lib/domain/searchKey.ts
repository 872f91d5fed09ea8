/**
 * The normalised text a record is found by: lower case, marks removed, single spaces (also for signs that
 * do not print), parts joined.
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
    .replace(/[\s\p{Cc}]+/gu, " ")
    .trim();
}

/**
 * The words of a search, folded as keys are: each once, at most eight. The signs that SQL's LIKE takes for jokers (% _ \)
 * part words as spaces do, so that every way of looking for a word finds the same.
 */
export function searchWords(typed: string): string[] {
  if (typed === "") return [];
  const words = searchKey(typed)
    .split(/[\s%_\\]+/)
    .filter(Boolean);
  return [...new Set(words)].slice(0, 8);
}
