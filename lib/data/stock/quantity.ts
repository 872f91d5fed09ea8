import { Refusal } from "@/lib/domain/refusal";

/** Refuses a quantity that is not a positive whole number of thousandths, or more than a column holds. */
export function demandAmount(quantityMilli: number): void {
  if (!Number.isSafeInteger(quantityMilli) || quantityMilli <= 0)
    throw new Refusal("A quantity must be more than nothing.", "Enter how much.", {
      quantity: "Enter how much.",
      quantityMilli: "Enter how much.",
    });
  if (quantityMilli > MOST_MILLI)
    throw new Refusal("That is more than a shelf can hold.", "Enter at most 2 000 000.", {
      quantity: "At most 2 000 000.",
      quantityMilli: "At most 2 000 000.",
    });
}

/** As demandAmount; refuses a broken piece as well. */
export function demandQuantity(quantityMilli: number, unit: string): void {
  demandAmount(quantityMilli);
  if (unit === "each" && quantityMilli % 1000 !== 0)
    throw new Refusal("This part is counted in pieces.", "Enter a whole number.", {
      quantity: "Enter a whole number.",
      quantityMilli: "Enter a whole number.",
    });
}

/** As demandQuantity, for one row of several: the refusal names the part and marks that row's own field. */
export function demandRow(quantityMilli: number, part: { code: string; unit: string }, field: string): void {
  try {
    demandQuantity(quantityMilli, part.unit);
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    throw new Refusal(`${part.code}: ${cause.message}`, cause.remedy, { [field]: cause.remedy });
  }
}

/** What the 32-bit columns hold, with room for a sum. */
const MOST_MILLI = 2_000_000_000;
