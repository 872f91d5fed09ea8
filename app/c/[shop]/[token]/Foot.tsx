import { Section } from "@/app/_ui/Section";
import type { Reach } from "@/lib/data/bookings/reach";
import { sellerNumber } from "@/lib/documents/sellerNumber";
import { weekdayNames } from "@/lib/schemas/wishes";
import { LANGUAGE_NAMES, LANGUAGES, languageOf } from "@/lib/words/language";
import { paperWords } from "@/lib/words/papers";
import { wordsIn } from "@/lib/words/words";

const LINK =
  "inline-flex min-h-11 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12";

interface Props {
  reach: Reach;
  locale: string;
  /** The page's own address: another language is chosen for it. */
  path: string;
}

/** How to reach the shop, on every page that a customer gets by link, and the choice of their language. */
export function Foot({ reach, locale, path }: Props) {
  const say = wordsIn(locale);
  const days = weekdayNames(locale);
  const open = reach.hours.some((day) => day.spans.length > 0);
  return (
    <footer className="mt-10">
      <Section title={say("links.reach")}>
        <p className="font-semibold">{reach.legalName || reach.name}</p>
        {reach.address && <p className="whitespace-pre-line">{reach.address}</p>}
        <ul className="mt-1">
          {reach.phone && (
            <li>
              <a href={`tel:${reach.phone.replace(/[^+\d]/g, "")}`} className={LINK}>
                {reach.phone}
              </a>
            </li>
          )}
          {reach.email && (
            <li>
              <a href={`mailto:${reach.email}`} className={LINK}>
                {reach.email}
              </a>
            </li>
          )}
        </ul>
        {reach.taxNumber && (
          <p className="text-[15px] text-soft">{sellerNumber(reach, paperWords(locale))}</p>
        )}
        {open && (
          <table className="mt-3 text-[15px]">
            <caption className="text-start font-semibold">{say("links.hours")}</caption>
            <tbody>
              {reach.hours.map(({ weekday, spans }) => (
                <tr key={weekday}>
                  <th scope="row" className="py-0.5 pe-4 text-start align-top font-normal">
                    {days[weekday - 1]?.name}
                  </th>
                  <td className="py-0.5 tabular-nums">
                    {spans.map((span) => say("links.between", span)).join(", ") || say("links.closed")}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
        {reach.documentNote && (
          <p className="mt-2 whitespace-pre-line text-[15px] text-soft">{reach.documentNote}</p>
        )}
      </Section>
      <form
        action={`${path}/language`}
        method="post"
        className="flex flex-wrap items-center gap-x-4 text-[15px]"
      >
        <span className="text-soft">{say("links.language")}</span>
        {LANGUAGES.map((language) => (
          <button
            key={language}
            type="submit"
            name="language"
            value={language}
            lang={language}
            aria-pressed={language === languageOf(locale)}
            className={language === languageOf(locale) ? `${LINK} font-semibold no-underline` : LINK}
          >
            {LANGUAGE_NAMES[language]}
          </button>
        ))}
      </form>
    </footer>
  );
}
