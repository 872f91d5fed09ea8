import { notFound } from "next/navigation";
import { Alternatives } from "@/app/_documents/Alternatives";
import { alternativeName } from "@/app/_documents/alternativeDifferences";
import { Extras } from "@/app/_documents/Extras";
import { QuotePrice } from "@/app/_documents/QuotePrice";
import { QuoteSettings } from "@/app/_documents/QuoteSettings";
import { WorksDone } from "@/app/_documents/WorksDone";
import { DateText } from "@/app/_ui/DateText";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { Chosen } from "@/lib/data/quotes/offered";
import { type ShownQuote, shownQuote } from "@/lib/data/quotes/shown";
import type { OpenedLink } from "@/lib/gate/customer";
import { Answer } from "./Answer";
import { Ask } from "./Ask";
import { FoundPhotos } from "./FoundPhotos";
import { Plain } from "./Plain";

interface Props {
  link: OpenedLink;
  token: string;
  /** The way and the extras of the address. */
  chosen: Chosen;
}

/** A quote as its customer reads it: what is done, what it changes, what it costs, and a place to say yes or no. */
export async function QuoteView({ link, token, chosen }: Props) {
  if (link.revisionId === null) notFound();
  const quote = await shownQuote(link.shop, link.revisionId, chosen);
  if (!quote) notFound();
  if (quote.state !== "sent") return <Answered quote={quote} />;
  const { printed } = quote;
  return (
    <main className="mx-auto max-w-[40rem] px-5 pt-6 pb-16">
      <p className="text-[15px] text-soft">{printed.shop.name}</p>
      <h1 className="mt-1 border-ink border-b-2 pb-2 font-bold text-[26px] leading-tight">
        {printed.title} for your {printed.bike.name}
      </h1>
      <p className="mt-2 mb-6 text-[15px]">
        Quote {printed.number} for {quote.customerName}. Valid until{" "}
        <DateText date={printed.validUntil} locale={printed.locale} look="long" />.
      </p>
      <Altered quote={quote} />
      <Alternatives quote={quote} path={`/c/${link.shop.slug}/${token}`} className="lg:-mx-40" />
      <Section
        title={
          printed.alternatives && printed.alternative
            ? `What we do: ${alternativeName(printed.alternative)}`
            : "What we do"
        }
      >
        <WorksDone works={printed.works} options={printed.options} />
      </Section>
      <FoundPhotos link={link} token={token} />
      <QuoteSettings printed={printed} />
      {printed.cautions.length > 0 && (
        <Section title="Good to know before">
          <ul className="list-disc pl-5">
            {printed.cautions.map((caution) => (
              <li key={caution} className="py-1">
                {caution}
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Extras
        extras={quote.extras}
        alternative={printed.alternatives && printed.alternative?.letter}
        printed={{ currency: printed.currency, locale: printed.locale, grossMinor: printed.grossMinor }}
      />
      <QuotePrice quote={quote} />
      <Ask slug={link.shop.slug} token={token} quote={quote} />
      <Answer slug={link.shop.slug} token={token} quote={quote} />
      <Contact quote={quote} />
    </main>
  );
}

/** The address can be typed and changed: what it asked for and is not there is said, and nothing else happens. */
function Altered({ quote: { strayed, leftOut, refused } }: { quote: ShownQuote }) {
  return (
    <>
      {refused && <Note title={refused.message}>{refused.remedy} You see it below as it was sent.</Note>}
      {strayed && (
        <Note title="Part of this address is not of this quote.">
          It asked for something that the shop does not offer here. What you see below is what it offers.
        </Note>
      )}
      {leftOut.length > 0 && (
        <Note title="Left out:">{`${leftOut.join(", ")}. It does not go with what you chose now.`}</Note>
      )}
    </>
  );
}

function Contact({ quote }: { quote: ShownQuote }) {
  const { shop } = quote.printed;
  return (
    <footer className="mt-10 border-rule border-t pt-4 text-[15px] text-soft">
      <p>{shop.legalName || shop.name}</p>
      <p className="whitespace-pre-line">
        {[shop.address, shop.phone, shop.email, shop.taxNumber].filter(Boolean).join("\n")}
      </p>
      {shop.note && <p className="mt-2 whitespace-pre-line">{shop.note}</p>}
    </footer>
  );
}

/** A quote that has been answered or has run out tells no more of itself. */
function Answered({ quote }: { quote: ShownQuote }) {
  if (quote.state === "accepted")
    return (
      <Plain title="Thank you, this quote is accepted">
        The work has the number {quote.jobNumber}. The shop will be in touch about a day. If anything is to
        change, call them before the bike goes in.
      </Plain>
    );
  if (quote.state === "declined")
    return (
      <Plain title="You said no to this quote">
        The shop knows. If you change your mind, ask them for a new one.
      </Plain>
    );
  if (quote.state === "expired")
    return (
      <Plain title="This quote has run out">
        Prices and parts may have changed. Ask the shop to renew it.
      </Plain>
    );
  return <Plain title="This quote was changed">Ask the shop for the new one.</Plain>;
}
