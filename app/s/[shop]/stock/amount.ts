import { figureText } from "@/app/_ui/format";

/** A quantity in thousandths by locale: "12.5 ml"; pieces stand without a unit. */
export function amountText(milli: number, unit: string, locale: string): string {
  const figure = figureText(milli / 1000, locale);
  return unit === "each" ? figure : `${figure} ${unit}`;
}

/** As amountText, with a sign either way: for moves. */
export function signedText(milli: number, unit: string, locale: string): string {
  return milli > 0 ? `+${amountText(milli, unit, locale)}` : amountText(milli, unit, locale);
}
