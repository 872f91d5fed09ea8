import { cashRounding } from "../money/cash";
import { moneyText } from "../money/format";
import { Refusal } from "../refusal";
import { type MoneyPart, type MoneyTaken, type PaymentMethod, takeMoney, takeParts } from "./settle";

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

/** How a sale is paid: so much by one method where `also` names it, the rest by `method`. */
export interface PaidHow {
  readonly method: PaymentMethod;
  /** What the customer gave in cash for what `method` pays; null where it was exact. */
  readonly givenMinor: number | null;
  readonly also?: MoneyPart | undefined;
}

/**
 * Settles a sale by one or two methods, in minor units: nothing for a sale of nothing. The other method's amount comes first off
 * what is due, and the rest is handed over as handOver does it. Throws Refusal where the other amount is all that is due or more.
 */
export function handedOver(
  dueMinor: number,
  { method, givenMinor, also }: PaidHow,
  stepMinor: number,
  book: { readonly currency: string; readonly locale: string },
): HandedOver[] {
  if (!also) return dueMinor === 0 ? [] : [handOver(dueMinor, method, givenMinor, stepMinor, book)];
  if (also.amountMinor >= dueMinor)
    throw new Refusal(
      "The part by the other way of paying leaves nothing to pay.",
      "Choose that way alone.",
      {
        alsoAmount: `Less than ${moneyText(dueMinor, book.currency, book.locale)}.`,
      },
    );
  const restMinor = dueMinor - also.amountMinor;
  const step = method === "cash" ? Math.max(1, stepMinor) : 1;
  const rest: MoneyPart = { method, amountMinor: cashRounding(restMinor, step).payableMinor };
  const [, other] = takeParts(dueMinor, [rest, also], stepMinor, book);
  if (!other) throw new Error("Two parts were not taken as two.");
  return [
    { ...other, givenMinor: other.amountMinor, changeMinor: 0 },
    handOver(restMinor, method, givenMinor, stepMinor, book),
  ];
}
