import { moneyText } from "@/app/_ui/moneyText";
import { wordsIn } from "@/lib/words/words";

/** What the extras' form says, with the total of what is ticked. */
export function extrasWords(
  spoken: string,
  { grossMinor, currency, locale }: { grossMinor: number; currency: string; locale: string },
) {
  const say = wordsIn(spoken);
  return {
    title: say("quotePage.mayAdd"),
    form: say("quotePage.extras"),
    workOut: say("quotePage.workOutTotal"),
    total: say("quotePage.totalTicked", { amount: moneyText(grossMinor, currency, locale) }),
  };
}
