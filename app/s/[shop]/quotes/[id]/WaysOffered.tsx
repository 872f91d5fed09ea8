import { wayName } from "@/app/_documents/wayDifferences";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import type { FrozenQuote } from "@/lib/data/documents/quote";

/** The ways a customer may choose from, or could, and the one that this text is. */
export function WaysOffered({ frozen, answered }: { frozen: FrozenQuote; answered: boolean }) {
  if (!frozen.ways) return null;
  return (
    <Section title="Ways offered">
      <ul>
        {frozen.ways.map((way) => (
          <li key={way.letter} className="flex justify-between gap-4 border-hair border-b py-2">
            <span>
              {wayName(way)}
              {way.letter === frozen.way?.letter && (
                <span className="text-soft">{answered ? ", chosen" : ", shown first"}</span>
              )}
            </span>
            <Money minor={way.grossMinor} currency={frozen.currency} locale={frozen.locale} />
          </li>
        ))}
      </ul>
    </Section>
  );
}
