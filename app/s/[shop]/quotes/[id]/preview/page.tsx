import { notFound } from "next/navigation";
import { acknowledgementText } from "@/app/_documents/acknowledgementText";
import { QuoteReading } from "@/app/_documents/QuoteReading";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { inPlaceOf } from "@/lib/data/mail/letters";
import { foundFor } from "@/lib/data/photos/ofQuote";
import { previewQuote, type QuotePreview } from "@/lib/data/quotes/preview";
import { pathId } from "@/lib/gate/ids";
import { type OpenShop, open } from "@/lib/gate/open";
import { LETTERS } from "@/lib/schemas/quoteLife";
import { languageOf } from "@/lib/words/language";
import { wordsIn } from "@/lib/words/words";
import { ShopThumbs } from "../../../_photos/ShopThumbs";
import { LinkForm } from "../LinkForm";
import { Reasons } from "../Reasons";
import { WhoGetsIt } from "./WhoGetsIt";

interface Props {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ "alternatives[]"?: string | string[] }>;
}

/** A quote as its customer reads it; for a draft, the step before it is sent. */
export default async function Preview({ params, searchParams }: Props) {
  const [{ shop: slug, id }, query] = await Promise.all([params, searchParams]);
  const shop = await open("quote.read", slug);
  const asked = [query["alternatives[]"] ?? []].flat();
  const letters = LETTERS.filter((letter) => asked.includes(letter));
  const quote = await previewQuote(shop, pathId(id), letters);
  if (!quote) notFound();
  const { state, stops } = quote;
  const path = `/s/${slug}/quotes/${quote.id}`;
  const draft = state === "draft";
  const maySend = shop.can("quote.send") && (draft || state === "sent");
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Quote ${quote.number} as its customer reads it`}
        sub={draft ? "not sent yet" : undefined}
        actions={<LinkButton href={path}>Back to the quote</LinkButton>}
      />
      <div className="max-w-[42rem]">
        <article
          aria-label="What the customer reads"
          lang={languageOf(quote.text.printed.locale)}
          className="mb-6 rounded-[3px] border border-rule bg-paper px-5 pt-5 max-sm:px-3.5"
        >
          <Reading shop={shop} quote={quote} />
        </article>
        {maySend && (
          <Section id="send" title={draft ? "Send it" : "Sent"}>
            {draft && <WhoGetsIt slug={slug} quote={quote} />}
            {stops.length > 0 && <Reasons slug={slug} stops={stops} at={path} className="mt-2" />}
            <LinkForm
              {...{ slug, id: quote.id, version: quote.version, letters }}
              state={draft ? "draft" : "sent"}
              mailTo={quote.customer.email}
              instead={
                quote.withheld ? Object.values(inPlaceOf(quote.withheld, quote.customer)).join(" ") : ""
              }
              send="Send it"
              disabled={stops.length > 0}
              className="mt-3"
            />
          </Section>
        )}
      </div>
    </>
  );
}

async function Reading({ shop, quote }: { shop: OpenShop; quote: QuotePreview }) {
  const { printed } = quote.text;
  const say = wordsIn(printed.locale);
  const found = await foundFor(shop, quote.id);
  const photos = found && shop.can("photo.read") ? found.photos : [];
  return (
    <>
      <QuoteReading
        quote={quote.text}
        path={null}
        heading="h2"
        found={
          found && (
            <Section title={say("quotePage.found")}>
              <p className="mb-2 whitespace-pre-line">{found.text}</p>
              <ShopThumbs slug={shop.slug} photos={photos} of={say("quotePage.found")} />
            </Section>
          )
        }
      />
      {printed.ownTerms && (
        <Section title={say("answering.ownTerms")}>
          <p className="whitespace-pre-line">{printed.ownTerms}</p>
        </Section>
      )}
      {printed.acknowledgements.length > 0 && (
        <Section title={say("answering.readAndTick")}>
          <ul className="list-disc pl-5">
            {printed.acknowledgements.map((one) => (
              <li key={one.key} className="py-1">
                {acknowledgementText(one, printed.locale)}
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  );
}
