import { alternativeName } from "@/app/_documents/alternativeDifferences";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import type { FrozenQuote } from "@/lib/data/documents/quote";

/** The ways a customer may choose from, or could, and the one that this text is. */
export function AlternativesOffered({ frozen, answered }: { frozen: FrozenQuote; answered: boolean }) {
  if (!frozen.alternatives) return null;
  return (
    <Section title="Alternatives offered">
      <ul>
        {frozen.alternatives.map((alternative) => (
          <li key={alternative.letter} className="flex justify-between gap-4 border-hair border-b py-2">
            <span>
              {alternativeName(alternative, "en")}
              {alternative.letter === frozen.alternative?.letter && (
                <span className="text-soft">{answered ? ", chosen" : ", shown first"}</span>
              )}
            </span>
            <Money minor={alternative.grossMinor} currency={frozen.currency} locale={frozen.locale} />
          </li>
        ))}
      </ul>
    </Section>
  );
}
