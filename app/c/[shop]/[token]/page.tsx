import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { SampleMark } from "@/app/_ui/SampleMark";
import { openLink, SHUT, SHUT_REMEDY } from "@/lib/gate/customer";
import { AlternativeAskedSchema, ExtrasAskedSchema } from "@/lib/schemas/quoteLife";
import { InvoiceView } from "./InvoiceView";
import { JobView } from "./JobView";
import { Plain } from "./Plain";
import { QuoteView } from "./QuoteView";

// The address holds the token: it is told to nobody else, and a form's origin stays known to us.
export const metadata: Metadata = {
  title: "For you",
  referrer: "same-origin",
  robots: { index: false, follow: false },
};

/** What a customer sees by link: one document, for the purpose the link was made for. */
interface Props {
  params: Promise<{ shop: string; token: string }>;
  searchParams: Promise<{ extra?: string | string[]; alternative?: string | string[] }>;
}

export default async function ByLink({ params, searchParams }: Props) {
  const [{ shop: slug, token }, { extra, alternative }] = await Promise.all([params, searchParams]);
  const link = await openLink(slug, token);
  if (link === "too often")
    return <Plain title="Too many tries in a short time">Wait ten minutes, then open your link again.</Plain>;
  if (link === "over")
    return (
      <Plain title="This link is no longer in use">
        It has run out, or the shop made a newer one. Nothing is wrong with your bike or your order: ask the
        workshop for a new link.
      </Plain>
    );
  if (link === "shut") return <Plain title={SHUT}>{SHUT_REMEDY}</Plain>;
  if (link === "unknown") notFound();
  const view =
    link.purpose === "quote" ? (
      <QuoteView
        link={link}
        token={token}
        chosen={{
          alternative: AlternativeAskedSchema.parse(alternative),
          extras: ExtrasAskedSchema.parse(extra),
        }}
      />
    ) : link.purpose === "job" ? (
      <JobView link={link} token={token} />
    ) : (
      <InvoiceView link={link} token={token} />
    );
  if (!link.sample) return view;
  return (
    <>
      <SampleMark />
      {view}
    </>
  );
}
