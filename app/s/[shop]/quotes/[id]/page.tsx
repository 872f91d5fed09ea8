import { notFound } from "next/navigation";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Screen } from "@/app/_ui/Screen";
import { State } from "@/app/_ui/State";
import { recallLike } from "@/lib/data/figures/recall";
import { kitsToName } from "@/lib/data/kits/read";
import { inPlaceOf } from "@/lib/data/mail/letters";
import { listPackages, type PackageLine } from "@/lib/data/packages/list";
import { getQuote, type QuotePage } from "@/lib/data/quotes/get";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { shown } from "@/lib/gate/shownLately";
import { QUOTE_WORDS } from "@/lib/schemas/quoteWords";
import { recallFilter } from "@/lib/schemas/recall";
import { OnQuote } from "../../_effects/OnQuote";
import { SenderGaps } from "../../_papers/SenderGaps";
import { Recalled } from "../../_recall/Recalled";
import { Acts } from "./Acts";
import { CallForms } from "./CallForms";
import { DraftView } from "./DraftView";
import { FoundPhotos } from "./FoundPhotos";
import { FrozenView } from "./FrozenView";
import { LeftParts } from "./LeftParts";
import { NeedleSection } from "./NeedleSection";
import { Questions } from "./Questions";
import { SendForm } from "./SendForm";
import { quoteScreen } from "./shown/screen";

export default async function Quote({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ recall?: string | string[] }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("quote.read", slug);
  const quote = await getQuote(shop, pathId(id), { margin: shop.can("margin.read") });
  if (!quote) notFound();
  const filter = recallFilter((await searchParams).recall);
  const mayWrite = shop.can("quote.write");
  const [recall, screen, listed, kits] = await Promise.all([
    quote.draft && shop.can("bike.read") ? recallLike(shop, quote.bike.id, filter) : null,
    quoteScreen(shop, quote),
    mayWrite ? listPackages(shop) : null,
    mayWrite ? kitsToName(shop) : [],
  ]);
  // One list for all that choose from it: it is sent once.
  const packages = listed && offered(listed);
  const { word, shape, tone } = QUOTE_WORDS[quote.state];
  const revision =
    quote.revisionNumber > 1 || quote.state === "draft" ? `, revision ${quote.revisionNumber}` : "";
  const { id: quoteId, number, state, revisionNumber, job, customer, terms } = quote;
  return (
    <Screen {...shown(shop.shopId, screen)}>
      <PageHead
        of={shop.name}
        title={`Quote ${quote.number}`}
        sub={<About slug={slug} quote={quote} />}
        state={
          <State shape={shape} tone={tone}>
            {word}
            {revision}
          </State>
        }
        actions={
          <>
            {packages && (
              <Acts
                slug={slug}
                quote={{ id: quoteId, number, state, revisionNumber, job }}
                packages={packages}
              />
            )}
            {shop.can("quote.send") && (state === "draft" || state === "sent") && (
              <SendForm
                slug={slug}
                id={quoteId}
                state={state}
                mailTo={customer.email}
                instead={quote.withheld ? Object.values(inPlaceOf(quote.withheld, customer)).join(" ") : ""}
                currency={terms.currency}
                locale={terms.locale}
              />
            )}
          </>
        }
      />
      {quote.state === "draft" && <SenderGaps shop={shop} />}
      <Questions slug={slug} quote={quote} mayWrite={shop.can("quote.write")} />
      {quote.state === "sent" && shop.can("quote.write") && (
        <CallForms slug={slug} quote={quote} maySend={shop.can("quote.send")} />
      )}
      <FoundPhotos shop={shop} quoteId={quote.id} sent={quote.sentAt !== null} />
      {quote.draft ? (
        <DraftView
          slug={slug}
          mayWrite={shop.can("quote.write")}
          mayAllow={shop.can("margin.override")}
          mayKeep={shop.can("package.write")}
          packages={packages ?? []}
          kits={kits}
          drawn={
            <>
              <NeedleSection sheet={quote.draft.target.sheet} locale={terms.locale} />
              <LeftParts sheet={quote.draft.target.sheet} />
            </>
          }
        />
      ) : (
        quote.frozen && <FrozenView slug={slug} quote={quote} frozen={quote.frozen} />
      )}
      {quote.draft && shop.can("package.read") && <OnQuote shop={shop} quoteId={quote.id} />}
      {recall && (
        <Recalled
          recall={recall}
          slug={slug}
          locale={quote.terms.locale}
          zone={shop.settings.zone}
          here={`/s/${slug}/quotes/${quote.id}`}
        />
      )}
    </Screen>
  );
}

const offered = (packages: readonly PackageLine[]) =>
  packages
    .filter((p) => p.active && p.published !== null)
    .map(({ id, code, name, summary }) => ({ id, code, name, summary }));

function About({ slug, quote }: { slug: string; quote: QuotePage }) {
  const link = "underline decoration-hair underline-offset-4 hover:decoration-ink";
  return (
    <>
      <Link className={link} href={`/s/${slug}/bikes/${quote.bike.id}`}>
        {quote.bike.name}
      </Link>{" "}
      ·{" "}
      <Link className={link} href={`/s/${slug}/customers/${quote.customer.id}`}>
        {quote.customer.name}
      </Link>
      {quote.variationOf && (
        <>
          {" "}
          · extra work on{" "}
          <Link className={link} href={`/s/${slug}/jobs/${quote.variationOf.id}`}>
            job {quote.variationOf.number}
          </Link>
        </>
      )}
    </>
  );
}
