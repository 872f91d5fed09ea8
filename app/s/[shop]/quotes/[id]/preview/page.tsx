import { notFound } from "next/navigation";
import { QuotePrice } from "@/app/_documents/QuotePrice";
import { QuoteSettings } from "@/app/_documents/QuoteSettings";
import { WorksDone } from "@/app/_documents/WorksDone";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { foundFor } from "@/lib/data/photos/ofQuote";
import { previewQuote } from "@/lib/data/quotes/preview";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";

/** A draft as its customer will read it once it is sent. */
export default async function Preview({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("quote.read", slug);
  const quoteId = pathId(id);
  const printed = await previewQuote(shop, quoteId);
  if (!printed) notFound();
  const found = await foundFor(shop, quoteId);
  return (
    <>
      <PageHead
        of={shop.name}
        title={`${printed.title} for your ${printed.bike.name}`}
        sub={`Quote ${printed.number} for ${printed.customer.name}, as it would be sent now`}
        actions={<LinkButton href={`/s/${slug}/quotes/${quoteId}`}>Back to the quote</LinkButton>}
      />
      <div className="max-w-[40rem]">
        <Section title="What we do">
          <WorksDone works={printed.works} options={printed.options} locale={printed.locale} />
        </Section>
        {found && (
          <Section title="What was found">
            <p className="whitespace-pre-line">{found.text}</p>
            {found.photos.length > 0 && <p className="text-[14px] text-soft">{found.photos.length} photos</p>}
          </Section>
        )}
        <QuoteSettings printed={printed} />
        {printed.cautions.length > 0 && (
          <Section title="Good to know before">
            <ul className="list-disc pl-5">
              {printed.cautions.map((caution) => (
                <li key={caution}>{caution}</li>
              ))}
            </ul>
          </Section>
        )}
        <QuotePrice quote={{ printed, lines: printed.lines }} />
        {printed.acknowledgements.length > 0 && (
          <Section title="To be ticked before a yes">
            <ul className="list-disc pl-5">
              {printed.acknowledgements.map((one) => (
                <li key={one.key}>{one.text}</li>
              ))}
            </ul>
          </Section>
        )}
      </div>
    </>
  );
}
