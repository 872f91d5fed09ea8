import { parseMoney } from "@/lib/domain/money/parse";
import type { ShopTerms } from "@/lib/domain/quoting/facts";
import { Refusal } from "@/lib/domain/refusal";

/** A typed amount in minor units; blank is `blank`, and a refusal names its field. */
export function amountTyped(
  text: string,
  terms: Pick<ShopTerms, "currency" | "locale">,
  field: string,
  blank: number | null = null,
): number {
  if (text === "" && blank !== null) return blank;
  try {
    const minor = parseMoney(text, terms.currency, terms.locale);
    if (minor >= 0) return minor;
    throw new Refusal("An amount cannot be below zero.", "Enter what it is, without a minus.");
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    const said = `${cause.message} ${cause.remedy}`;
    throw new Refusal("This amount cannot be read.", "Look at the marked field.", { [field]: said });
  }
}
