import { marked } from "./format";
import { priceText } from "./scale";

/**
 * A unit price in ten-thousandths as screens write it, like `moneyText`, with as many more decimals as it needs: "0.0125".
 * Throws Refusal for an unknown currency or locale.
 */
export function unitPriceText(priceE4: number, currency: string, locale: string): string {
  return marked(priceText(priceE4, currency), locale);
}
