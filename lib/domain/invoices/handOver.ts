import { cashRounding } from "../money/cash";
import { moneyText } from "../money/format";
import { Refusal } from "../refusal";
import { type MoneyTaken, type PaymentMethod, takeMoney } from "./settle";

/** Money that changes hands at the counter. */
export interface HandedOver extends MoneyTaken {
  readonly method: PaymentMethod;
  /** Notes and coins that the customer gave; what settles it for any other method. */
  readonly givenMinor: number;
  readonly changeMinor: number;
}

/**
 * Settles a sale at once, in minor units: cash to the smallest coin (`stepMinor`; 0 or 1 for none), with change out of what was
 * given. `givenMinor` null means that it was given exactly. Throws Refusal where less was given than is due.
 */
export function handOver(
  dueMinor: number,
  method: PaymentMethod,
  givenMinor: number | null,
  stepMinor: number,
  book: { readonly currency: string; readonly locale: string },
): HandedOver {
  const { payableMinor } = cashRounding(dueMinor, method === "cash" ? Math.max(1, stepMinor) : 1);
  const taken = takeMoney(dueMinor, payableMinor, method, stepMinor, book);
  const given = method === "cash" ? (givenMinor ?? payableMinor) : payableMinor;
  if (!Number.isSafeInteger(given) || given < payableMinor) {
    const text = (minor: number) => `${moneyText(minor, book.currency, book.locale)} ${book.currency}`;
    throw new Refusal(
      `${text(given)} is less than the ${text(payableMinor)} to be paid.`,
      "Enter what the customer gave, or leave it empty where it was exact.",
      { given: `At least ${text(payableMinor)}.` },
    );
  }
  return { ...taken, method, givenMinor: given, changeMinor: given - payableMinor };
}
