import type { ShopTx } from "@/lib/db/shop";
import { withTexts } from "@/lib/domain/packages/customerTexts";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import { customerLocale, languageOf } from "@/lib/words/language";
import { phrasebook } from "../shop/phrases";
import type { FoundQuote } from "./rows";

/**
 * A quote's facts as they are told to its customer: their language with the formats of the shop's place, and the shop's own
 * words in that language where it wrote them. `say` says further texts of the shop so.
 */
export async function spokenTo(
  db: Pick<ShopTx, "phrase">,
  facts: QuoteFacts,
  language: string,
): Promise<{ facts: QuoteFacts; say: (text: string) => string }> {
  const locale = customerLocale(facts.terms.locale, language);
  const say = await phrasebook(db, languageOf(locale));
  return {
    say,
    facts: {
      ...facts,
      terms: { ...facts.terms, locale },
      grades: facts.grades.map((grade) => ({ ...grade, name: say(grade.name) })),
      recipe: withTexts(facts.recipe, say),
      ...(facts.works
        ? { works: facts.works.map((work) => ({ ...work, name: say(work.name), text: say(work.text) })) }
        : {}),
    },
  };
}

/** The quote as its customer reads it: its title in their language. */
export const titled = (found: FoundQuote, say: (text: string) => string): FoundQuote => ({
  ...found,
  quote: { ...found.quote, title: say(found.quote.title) },
});
