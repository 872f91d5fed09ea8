import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { SampleMark } from "@/app/_ui/SampleMark";
import { type Reach, reachOf } from "@/lib/data/papers/reach";
import { openLinkOnce } from "@/lib/gate/customer";
import { AlternativeAskedSchema, ExtrasAskedSchema } from "@/lib/schemas/quoteLife";
import { wordsIn } from "@/lib/words/words";
import { Foot } from "./Foot";
import { InvoiceView } from "./InvoiceView";
import { JobView } from "./JobView";
import { Plain } from "./Plain";
import { QuoteView } from "./QuoteView";

/** What a customer sees by link: one document, for the purpose the link was made for. */
interface Props {
  params: Promise<{ shop: string; token: string }>;
  searchParams: Promise<{ extra?: string | string[]; alternative?: string | string[] }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { shop, token } = await params;
  const link = await openLinkOnce(shop, token);
  const say = wordsIn(link.locale);
  const title = "closed" in link ? say("links.page") : say("links.pageOf", { shop: link.shopName });
  return {
    title,
    // What a chat shows of the address: nothing of the customer, their bike or their money.
    openGraph: { title, description: say("links.private") },
    description: say("links.private"),
    // The address holds the token: it is told to nobody else, and a form's origin stays known to us.
    referrer: "same-origin",
    robots: { index: false, follow: false },
  };
}

export default async function ByLink({ params, searchParams }: Props) {
  const [{ shop: slug, token }, { extra, alternative }] = await Promise.all([params, searchParams]);
  const link = await openLinkOnce(slug, token);
  const say = wordsIn(link.locale);
  const path = `/c/${slug}/${token}`;
  if ("closed" in link) {
    if (link.closed === "unknown") notFound();
    if (link.closed === "over") {
      const foot = <Foot reach={await reachOf(link.shop)} locale={link.locale} path={path} />;
      return (
        <Plain title={say("links.over")} foot={foot}>
          {say("links.overText")}
        </Plain>
      );
    }
    const [title, text] =
      link.closed === "shut"
        ? [say("links.shut"), say("links.shutText")]
        : [say("links.tooOften"), say("links.tooOftenText")];
    return <Plain title={title}>{text}</Plain>;
  }
  const reach: Reach = await reachOf(link.shop);
  const foot = <Foot reach={reach} locale={link.locale} path={path} />;
  const view =
    link.purpose === "quote" ? (
      <QuoteView
        link={link}
        token={token}
        foot={foot}
        chosen={{
          alternative: AlternativeAskedSchema.parse(alternative),
          extras: ExtrasAskedSchema.parse(extra),
        }}
      />
    ) : link.purpose === "job" && link.jobId !== null ? (
      <JobView link={link} jobId={link.jobId} path={path} foot={foot} />
    ) : (
      <InvoiceView link={link} token={token} foot={foot} />
    );
  if (!link.sample) return view;
  return (
    <>
      <SampleMark>{say("links.sample")}</SampleMark>
      {view}
    </>
  );
}
