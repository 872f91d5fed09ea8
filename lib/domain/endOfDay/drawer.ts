import { moneyText } from "../money/format";
import { Refusal } from "../refusal";

/** So many of one coin or note. */
export interface Pieces {
  readonly valueMinor: number;
  readonly pieces: number;
}

/** What should lie in the drawer, in minor units: its float, the cash of the day, and what was put in or (below zero) taken out. */
export const expectedCash = (
  floatMinor: number,
  cashMinor: number,
  moves: readonly { readonly amountMinor: number }[],
): number => moves.reduce((sum, move) => sum + move.amountMinor, floatMinor + cashMinor);

/** The sum of what was counted, in minor units. */
export const countedCash = (pieces: readonly Pieces[]): number =>
  pieces.reduce((sum, { valueMinor, pieces: many }) => sum + valueMinor * many, 0);

/** A figure that was counted or read off, against what the books expect; why they differ, where they do. */
export interface Compared {
  readonly expectedMinor: number;
  readonly countedMinor: number;
  readonly differenceMinor: number;
  readonly reason: string;
}

interface Book {
  readonly currency: string;
  readonly locale: string;
}

/** The drawer or the card terminal, as a sentence names it and a form its fields. */
const NAMES = {
  drawer: { name: "The drawer", over: "over", short: "short", field: "reason" },
  terminal: { name: "The card terminal", over: "over", short: "short", field: "terminalReason" },
} as const;

/** Compares what was counted with what is expected, in minor units. Throws Refusal where they differ and no reason is given. */
export function compared(
  what: keyof typeof NAMES,
  given: { readonly expectedMinor: number; readonly countedMinor: number; readonly reason: string },
  { currency, locale }: Book,
): Compared {
  const differenceMinor = given.countedMinor - given.expectedMinor;
  if (differenceMinor === 0) return { ...given, differenceMinor, reason: "" };
  const { name, over, short, field } = NAMES[what];
  if (given.reason.length < 3) {
    const text = `${moneyText(Math.abs(differenceMinor), currency, locale)} ${currency}`;
    throw new Refusal(
      `${name} is ${text} ${differenceMinor > 0 ? over : short}.`,
      "Count once more; if it stays so, say why, or that nobody knows.",
      { [field]: `${text} ${differenceMinor > 0 ? over : short}: say why, or that nobody knows.` },
    );
  }
  return { ...given, differenceMinor };
}

/**
 * What is counted split into what stays as the next day's float and what leaves the drawer, in minor units. Throws Refusal where more
 * is to stay than there is.
 */
export function splitCounted(
  countedMinor: number,
  leftMinor: number,
  { currency, locale }: Book,
): { readonly leftMinor: number; readonly takenMinor: number } {
  if (!(leftMinor >= 0 && leftMinor <= countedMinor)) {
    const most = `${moneyText(Math.max(0, countedMinor), currency, locale)} ${currency}`;
    throw new Refusal(`No more than ${most} can stay in the drawer.`, "Enter what stays there overnight.", {
      left: `At most ${most}: that is what was counted.`,
    });
  }
  return { leftMinor, takenMinor: countedMinor - leftMinor };
}
