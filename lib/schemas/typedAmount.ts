import { parseMoney } from "@/lib/domain/money/parse";
import { Refusal } from "@/lib/domain/refusal";

/** A typed amount in minor units; what is wrong with it stands at its field. Throws Refusal. */
export function typedAmount(
  text: string,
  settings: { readonly currency: string; readonly locale: string },
  field = "amount",
): number {
  try {
    return parseMoney(text, settings.currency, settings.locale);
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    throw new Refusal(cause.message, cause.remedy, { [field]: `${cause.message} ${cause.remedy}` });
  }
}
