import type { ReactNode } from "react";
import { dateText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { ShownText } from "@/lib/data/quotes/shownText";
import { wordsIn } from "@/lib/words/words";
import { Alternatives } from "./Alternatives";
import { alternativeName } from "./alternativeDifferences";
import { DidHere } from "./DidHere";
import { Extras } from "./Extras";
import { extrasWords } from "./extrasWords";
import { QuotePrice } from "./QuotePrice";
import { QuoteSettings } from "./QuoteSettings";
import { WorksDone } from "./WorksDone";

interface Props {
  quote: ShownText;
  /** Address of the page, where choices are followed; null where it is only looked at. */
  path: string | null;
  /** Where it stands in the page: it is the page itself, or a part of one. */
  heading: "h1" | "h2";
  /** What was found, for extra work. */
  found: ReactNode;
  /** Lets the alternatives stand wider than the text around them. */
  wide?: string | undefined;
  /** What is said of this reading of it, before all else. */
  children?: ReactNode;
}

/** A quote as its customer reads it: what is done, what it changes, what may be chosen, what it costs. */
export function QuoteReading({ quote, path, heading: Heading, found, wide, children }: Props) {
  const { printed } = quote;
  const { locale } = printed;
  const say = wordsIn(locale);
  const extras = (
    <Extras
      extras={quote.extras}
      alternative={printed.alternatives && printed.alternative?.letter}
      printed={{ currency: printed.currency, locale, grossMinor: printed.grossMinor }}
      words={extrasWords(locale, printed)}
    />
  );
  return (
    <>
      <p className="text-[15px] text-soft">{printed.shop.name}</p>
      <Heading className="mt-1 border-ink border-b-2 pb-2 font-bold text-[26px] leading-tight">
        {say("quotePage.title", { title: printed.title, bike: printed.bike.name })}
      </Heading>
      <p className="mt-2 mb-6 text-[15px]">
        {say("quotePage.intro", {
          number: String(printed.number),
          customer: quote.customerName,
          day: dateText(printed.validUntil, locale, "long"),
        })}
      </p>
      {children}
      <Alternatives quote={quote} path={path} className={wide} />
      <Section
        title={
          printed.alternatives && printed.alternative
            ? say("quotePage.whatWeDoAs", { alternative: alternativeName(printed.alternative, locale) })
            : say("quotePage.whatWeDo")
        }
      >
        <WorksDone works={printed.works} options={printed.options} locale={locale} />
      </Section>
      {found}
      <QuoteSettings printed={printed} />
      <DidHere did={printed.did} locale={locale} />
      {printed.cautions.length > 0 && (
        <Section title={say("quotePage.goodToKnow")}>
          <ul className="list-disc pl-5">
            {printed.cautions.map((caution) => (
              <li key={caution} className="py-1">
                {caution}
              </li>
            ))}
          </ul>
        </Section>
      )}
      {path === null ? (
        <fieldset disabled className="m-0 min-w-0 border-0 p-0">
          {extras}
        </fieldset>
      ) : (
        extras
      )}
      <QuotePrice quote={quote} />
      <Note title={say("quotePage.mayChange")}>{say("quotePage.mayChangeText")}</Note>
    </>
  );
}
