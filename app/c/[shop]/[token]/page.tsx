import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { SampleMark } from "@/app/_ui/SampleMark";
import { reachOf } from "@/lib/data/bookings/reach";
import { type ClosedLink, noteOpening, openLinkOnce } from "@/lib/gate/customer";
import { AlternativeAskedSchema, ExtrasAskedSchema } from "@/lib/schemas/quoteLife";
import { wordsIn } from "@/lib/words/words";
import { Foot } from "./Foot";
import { InvoiceView } from "./InvoiceView";
import { JobView } from "./JobView";
import { linkMetadata } from "./linkMetadata";
import { Plain } from "./Plain";
import { QuoteView } from "./QuoteView";

/** What a customer sees by link: one document, for the purpose the link was made for. */
interface Props {
  params: Promise<{ shop: string; token: string }>;
  searchParams: Promise<{ extra?: string | string[]; alternative?: string | string[] }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { shop, token } = await params;
  return linkMetadata(await openLinkOnce(shop, token));
}

export default async function ByLink({ params, searchParams }: Props) {
  const [{ shop: slug, token }, { extra, alternative }] = await Promise.all([params, searchParams]);
  const link = await openLinkOnce(slug, token);
  const path = `/c/${slug}/${token}`;
  if ("closed" in link) return <Closed link={link} path={path} />;
  await noteOpening(link);
  const foot = <Foot reach={await reachOf(link.shop, link.locale)} locale={link.locale} path={path} />;
  const asked = {
    alternative: AlternativeAskedSchema.parse(alternative),
    extras: ExtrasAskedSchema.parse(extra),
  };
  return (
    <>
      {link.sample && <SampleMark>{wordsIn(link.locale)("links.sample")}</SampleMark>}
      {link.purpose === "quote" && <QuoteView link={link} token={token} foot={foot} chosen={asked} />}
      {link.purpose === "job" && link.jobId !== null && (
        <JobView link={link} jobId={link.jobId} path={path} foot={foot} />
      )}
      {link.purpose === "invoice" && <InvoiceView link={link} token={token} foot={foot} />}
    </>
  );
}

/** A link that does not open: said in the reader's language; the shop is named only where the link was once good. */
async function Closed({ link, path }: { link: ClosedLink; path: string }) {
  const say = wordsIn(link.locale);
  if (link.closed === "unknown") notFound();
  if (link.closed === "over") {
    const foot = <Foot reach={await reachOf(link.shop, link.locale)} locale={link.locale} path={path} />;
    return (
      <Plain title={say("links.over")} foot={foot}>
        {say("links.overText")}
      </Plain>
    );
  }
  return link.closed === "shut" ? (
    <Plain title={say("links.shut")}>{say("links.shutText")}</Plain>
  ) : (
    <Plain title={say("links.tooOften")}>{say("links.tooOftenText")}</Plain>
  );
}
