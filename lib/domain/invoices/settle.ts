import { cashRounding } from "../money/cash";
import { moneyText } from "../money/format";
import { Refusal } from "../refusal";

export type PaymentMethod = "cash" | "card" | "transfer";

export interface MoneyTaken {
  readonly amountMinor: number;
  /** What cash rounding added to or took from what was due (EN 16931 BT-114). */
  readonly roundingMinor: number;
  /** What it takes off the due amount: the amount less the rounding. */
  readonly settlesMinor: number;
}

/**
 * Money offered against what is due, in minor units. Cash that equals the due amount in whole coins settles it wholly and
 * the rounding is kept apart; any other cash must itself be in whole coins. Nothing above the due amount is taken.
 * `stepMinor` is the smallest coin; 0 or 1 for none. `what` says of which money that is: due from the customer, or held for
 * them. Throws Refusal for an amount that cannot be.
 */
export function takeMoney(
  dueMinor: number,
  amountMinor: number,
  method: PaymentMethod,
  stepMinor: number,
  book: { readonly currency: string; readonly locale: string },
  what: "due" | "held" = "due",
): MoneyTaken {
  const { currency } = book;
  const text = (minor: number) => moneyText(minor, currency, book.locale);
  const step = method === "cash" ? Math.max(1, stepMinor) : 1;
  const { payableMinor, roundingMinor } = cashRounding(dueMinor, step);
  const most = text(Math.max(0, payableMinor));
  if (
    !Number.isSafeInteger(amountMinor) ||
    amountMinor < 0 ||
    dueMinor <= 0 ||
    (amountMinor === 0 && payableMinor > 0)
  )
    throw refused(
      dueMinor <= 0 ? `Nothing is ${what}.` : "An amount above zero is needed.",
      dueMinor <= 0 ? "Nothing was recorded." : `At most ${most} ${currency} is ${what}.`,
    );
  if (amountMinor === payableMinor) return { amountMinor, roundingMinor, settlesMinor: dueMinor };
  if (amountMinor > payableMinor)
    throw refused(
      `${text(amountMinor)} ${currency} is more than is ${what}.`,
      `${what === "due" ? "Take" : "Give back"} at most ${most} ${currency}.`,
    );
  if (amountMinor % step !== 0)
    throw refused(
      `${text(amountMinor)} ${currency} cannot be paid in coins.`,
      `Cash comes in steps of ${text(step)}; ${most} ${currency} settles it.`,
    );
  return { amountMinor, roundingMinor: 0, settlesMinor: amountMinor };
}

/** An amount by one method. */
export interface MoneyPart {
  readonly method: PaymentMethod;
  readonly amountMinor: number;
}

export type TakenPart = MoneyPart & MoneyTaken;

/**
 * Money by several methods in one act, in the order given. Cash is counted last, so that it alone settles what is left to the coin;
 * each amount is held against what the ones before it leave. Throws Refusal as takeMoney does, and for a method given twice; what is
 * wrong with an amount after the first stands at the field `alsoAmount`.
 */
export function takeParts(
  dueMinor: number,
  parts: readonly MoneyPart[],
  stepMinor: number,
  book: { readonly currency: string; readonly locale: string },
): TakenPart[] {
  if (new Set(parts.map((part) => part.method)).size < parts.length)
    throw new Refusal("The same way of paying stands here twice.", "Put it in one amount.", {
      alsoMethod: "Choose another one, or put it in one amount.",
    });
  const taken = new Map<MoneyPart, TakenPart>();
  const inOrder = [...parts].sort(
    (one, two) => Number(one.method === "cash") - Number(two.method === "cash"),
  );
  let left = dueMinor;
  for (const part of inOrder) {
    const own = atItsField(part === parts[0], () =>
      takeMoney(left, part.amountMinor, part.method, stepMinor, book),
    );
    taken.set(part, { ...part, ...own });
    left -= own.settlesMinor;
  }
  return parts.flatMap((part) => taken.get(part) ?? []);
}

function atItsField<T>(first: boolean, run: () => T): T {
  try {
    return run();
  } catch (cause) {
    if (first || !(cause instanceof Refusal)) throw cause;
    const { amount, ...others } = cause.fields;
    throw new Refusal(cause.message, cause.remedy, amount ? { ...others, alsoAmount: amount } : others);
  }
}

const refused = (message: string, remedy: string) => new Refusal(message, remedy, { amount: remedy });
