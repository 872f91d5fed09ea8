/** The units a part is counted in; a part counted `each` moves in whole numbers only. */
export const PART_UNITS = ["each", "ml", "mm", "g"] as const;

/** A quantity in thousandths as people write it: 3, 12.5 ml. Nothing is said after a number of pieces. */
export function quantityText(milli: number, unit: string): string {
  const whole = Math.trunc(Math.abs(milli) / 1000);
  const rest = String(Math.abs(milli) % 1000)
    .padStart(3, "0")
    .replace(/0+$/, "");
  const sign = milli < 0 ? "-" : "";
  const figure = `${sign}${whole}${rest ? `.${rest}` : ""}`;
  return unit === "each" ? figure : `${figure} ${unit}`;
}

/** What was typed as thousandths: "12.5" and "12,5" are 12500. Null where it is no such number. */
export function milliOf(text: string): number | null {
  const found = /^([+-]?)(\d{1,7})(?:[.,](\d{1,3}))?$/.exec(text.trim());
  if (!found) return null;
  const size = Number(found[2]) * 1000 + Number((found[3] ?? "").padEnd(3, "0"));
  return found[1] === "-" ? -size : size;
}

/** The kinds of move of the stock ledger, in the words the screens say. */
export const MOVE_WORDS = {
  opening: "opening stock",
  receipt: "received",
  use: "used",
  returnToStock: "returned to stock",
  returnToSupplier: "sent back to the supplier",
  count: "counted",
  scrap: "scrapped",
  split: "split",
  betweenBins: "moved between bins",
} as const;
export type MoveKindName = keyof typeof MOVE_WORDS;
