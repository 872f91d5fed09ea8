import { giveWay } from "@/lib/db/giveWay";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import type { QuoteView, QuoteWarning } from "@/lib/domain/quoting/result";
import { extraChoices } from "./extras";
import { type BelowMargin, isAllowed } from "./leastMargin";

/**
 * What stands against a quote only once its customer adds an extra that is offered: it cannot be sent while the extra is. What keeps
 * the quote itself from being sent is not said again.
 */
export async function extraStops(
  facts: QuoteFacts,
  view: QuoteView,
  said: BelowMargin | null,
): Promise<QuoteWarning[]> {
  const known = new Set(view.warnings.map((warning) => warning.message));
  const stops: QuoteWarning[] = [];
  for (const { key, name } of extraChoices(facts, view).filter((one) => one.offered)) {
    await giveWay();
    const then = computeQuote({ ...facts, choices: [...view.choice.chosen, key] });
    for (const warning of then.warnings)
      if (warning.stops && !known.has(warning.message))
        stops.push({ ...warning, message: `With the extra “${name}”: ${warning.message}` });
    if (isAllowed(view, said) && !isAllowed(then, said))
      stops.push({
        message: `With the extra “${name}” this quote is below the shop's least margin.`,
        remedy: "Change its price, do not offer it, or ask an owner to allow it with a reason.",
        stops: true,
        place: "margin",
      });
  }
  return stops;
}
