import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { ShownQuote } from "@/lib/data/quotes/shown";
import { settingSentence } from "./settingWords";

/** What changes on the bike, in plain words. */
export function QuoteSettings({
  printed,
}: {
  printed: Pick<ShownQuote["printed"], "settings" | "carburettors" | "locale">;
}) {
  const changed = printed.settings.filter((s) => s.value !== s.from);
  if (changed.length === 0) return null;
  const several = printed.carburettors.length > 1;
  return (
    <Section title="What changes">
      <ul>
        {changed.map((s) => (
          <li key={`${s.carburettor} ${s.setting}`} className="border-hair border-b py-2">
            {several && `${printed.carburettors[s.carburettor - 1] ?? s.carburettor}: `}
            {settingSentence(s, printed.locale)}
          </li>
        ))}
      </ul>
      <Note title="A starting point:">
        worked out for your bike, and verified by plug, lambda and test ride before you get it back. It may be
        corrected then.
      </Note>
    </Section>
  );
}
