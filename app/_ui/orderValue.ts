import type { CellValue } from "./tableTypes";

/** What a cell is ordered by; undefined where it is empty, which comes last both ways. */
export function orderValue(value: CellValue | undefined): number | string | undefined {
  if (value === null || value === undefined || value === "") return undefined;
  if (typeof value !== "object") return value;
  if ("minor" in value) return value.minor;
  return "word" in value ? value.word : value.text;
}

/** Numbers by size, text as a reader of that language looks it up, with numbers in it by size. */
export function inOrder(locale: string): (one: unknown, other: unknown) => number {
  const { compare } = new Intl.Collator(locale, { numeric: true });
  return (one, other) =>
    typeof one === "number" && typeof other === "number" ? one - other : compare(String(one), String(other));
}
