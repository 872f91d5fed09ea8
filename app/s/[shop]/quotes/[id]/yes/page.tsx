import { notFound } from "next/navigation";
import { Alternatives } from "@/app/_documents/Alternatives";
import { alternativeName } from "@/app/_documents/alternativeDifferences";
import { Extras } from "@/app/_documents/Extras";
import { extrasWords } from "@/app/_documents/extrasWords";
import { Facts } from "@/app/_ui/Facts";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { revisionToAccept, shownQuote } from "@/lib/data/quotes/shown";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { AlternativeAskedSchema, ExtrasAskedSchema } from "@/lib/schemas/quoteLife";
import { customerLocale } from "@/lib/words/language";
import { YesForm } from "./YesForm";

interface Props {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ extra?: string | string[]; alternative?: string | string[] }>;
}

/** A yes that was said to the desk: the way and the extras they chose, what it comes to, and how it was said. */
export default async function SaidYes({ params, searchParams }: Props) {
  const [{ shop: slug, id }, { extra, alternative }] = await Promise.all([params, searchParams]);
  const shop = await open("quote.write", slug);
  const revisionId = await revisionToAccept(shop, pathId(id));
  const quote =
    revisionId === null
      ? null
      : await shownQuote(
          shop,
          revisionId,
          { alternative: AlternativeAskedSchema.parse(alternative), extras: ExtrasAskedSchema.parse(extra) },
          customerLocale(shop.settings.locale, "en"),
        );
  if (revisionId === null || !quote) notFound();
  const { printed } = quote;
  const path = `/s/${slug}/quotes/${id}`;
  const head = (
    <PageHead
      of={shop.name}
      title={`Yes to quote ${printed.number}`}
      sub={`${quote.customerName} · ${printed.title}`}
      actions={<LinkButton href={path}>Back to the quote</LinkButton>}
    />
  );
  if (quote.state !== "sent")
    return (
      <>
        {head}
        <Note title="This quote is not waiting for a yes.">
          It was answered, or has run out. Its page says what can be done with it.
        </Note>
      </>
    );
  const money = (minor: number) => (
    <Money minor={minor} currency={printed.currency} locale={printed.locale} code />
  );
  return (
    <>
      {head}
      <div className="max-w-[46rem]">
        {quote.refused && (
          <Note title={quote.refused.message}>
            Below is the quote as it was sent. For this choice, revise it and send it again.
          </Note>
        )}
        {(quote.strayed || quote.leftOut.length > 0) && (
          <Note title="Part of what the address asks for is left out.">
            It is not offered, or does not go with the way chosen.
          </Note>
        )}
        <Alternatives quote={quote} path={`${path}/yes`} />
        <Extras
          extras={quote.extras}
          alternative={printed.alternatives && printed.alternative?.letter}
          printed={{ currency: printed.currency, locale: printed.locale, grossMinor: printed.grossMinor }}
          words={extrasWords("en", printed)}
        />
        <Section title="What they say yes to">
          <Facts
            rows={[
              ...(printed.alternatives && printed.alternative
                ? [{ name: "Alternative", value: alternativeName(printed.alternative, "en") }]
                : []),
              { name: "Work", value: printed.options.map((o) => o.name).join("; ") },
              { name: "Total", value: money(printed.grossMinor), strong: true },
              ...(printed.depositMinor > 0 ? [{ name: "Deposit", value: money(printed.depositMinor) }] : []),
            ]}
          />
        </Section>
        <YesForm slug={slug} revisionId={revisionId} quote={quote} />
      </div>
    </>
  );
}
