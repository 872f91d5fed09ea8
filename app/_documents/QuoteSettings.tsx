import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { ShownText } from "@/lib/data/quotes/shownText";
import { wordsIn } from "@/lib/words/words";
import { settingPurpose, settingSentence } from "./settingWords";

interface Props {
  printed: Pick<ShownText["printed"], "settings" | "carburettors" | "locale">;
}

/** What changes on the bike: what it does for the rider, with the figures one step away. */
export function QuoteSettings({ printed: { settings, carburettors, locale } }: Props) {
  const say = wordsIn(locale);
  const changed = settings.filter((s) => s.value !== s.from);
  if (changed.length === 0) return null;
  const several = carburettors.length > 1;
  const purposes = [...new Set(changed.map((s) => settingPurpose(s.setting, locale)))].filter(Boolean);
  return (
    <Section title={say("quotePage.whatChanges")}>
      <ul>
        {purposes.map((purpose) => (
          <li key={purpose} className="border-hair border-b py-2">
            {purpose}
          </li>
        ))}
      </ul>
      <details className="mt-2">
        <summary className="inline-flex min-h-12 items-center font-semibold text-brass underline underline-offset-[5px]">
          {say("quotePage.exactFigures")}
        </summary>
        <ul>
          {changed.map((s) => (
            <li key={`${s.carburettor} ${s.setting}`} className="border-hair border-b py-2">
              {several && `${carburettors[s.carburettor - 1] ?? s.carburettor}: `}
              {settingSentence(s, locale)}
            </li>
          ))}
        </ul>
      </details>
      <Note title={say("quotePage.startingPoint")}>{say("quotePage.startingPointText")}</Note>
    </Section>
  );
}
