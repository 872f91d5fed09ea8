import { notFound } from "next/navigation";
import { alternativeName } from "@/app/_documents/alternativeDifferences";
import { DateText } from "@/app/_ui/DateText";
import { Facts } from "@/app/_ui/Facts";
import { Instant } from "@/app/_ui/Instant";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { type Proof, quoteProof } from "@/lib/data/quotes/proof";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { PriceSection } from "../PriceSection";
import { frozenPrice } from "../shown/price";
import { PrintButton } from "./PrintButton";

/** A quote on paper as it was printed, with the proof of its yes where there is one. */
export default async function QuoteProof({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("quote.read", slug);
  const proof = await quoteProof(shop, pathId(id));
  if (!proof) notFound();
  const { frozen, acceptance } = proof;
  return (
    <>
      <PageHead
        of={shop.name}
        title={acceptance ? `Proof of the yes to quote ${frozen.number}` : `Quote ${frozen.number}`}
        sub={`${frozen.title} · revision ${frozen.revision}`}
        actions={
          <>
            <PrintButton />
            <LinkButton href={`/api/s/${slug}/quotes/${id}/pdf`} download>
              PDF
            </LinkButton>
            <LinkButton href={`/s/${slug}/quotes/${id}`}>To the quote</LinkButton>
          </>
        }
      />
      <div className="max-w-[46rem]">
        <Yes proof={proof} zone={shop.settings.zone} />
        <Shown proof={proof} />
      </div>
    </>
  );
}

function Yes({ proof, zone }: { proof: Proof; zone: string }) {
  const { acceptance, frozen, hash, sound } = proof;
  const { locale } = frozen;
  return (
    <Section title={acceptance ? "The yes" : "The print"}>
      <Facts
        rows={[
          ...(acceptance
            ? [
                { name: "Name typed", value: acceptance.typedName },
                {
                  name: "When",
                  value: <Instant at={acceptance.at.toISOString()} locale={locale} zone={zone} />,
                },
                { name: "How", value: acceptance.agent || "by the link" },
                {
                  name: "What was shown",
                  value: acceptance.same ? "this text, by its hash" : "not this text",
                },
              ]
            : []),
          ...(frozen.alternatives && frozen.alternative
            ? [
                {
                  name: acceptance ? "Alternative chosen" : "Alternative shown first",
                  value: `${alternativeName(frozen.alternative, "en")}, of ${frozen.alternatives.map((one) => alternativeName(one, "en")).join("; ")}`,
                },
              ]
            : []),
          {
            name: "Kept text",
            value: sound ? (
              <State shape="filled" tone="pine">
                unaltered
              </State>
            ) : (
              <State shape="diamond" tone="oxide">
                does not match its hash
              </State>
            ),
          },
        ]}
      />
      <p className="mt-2 text-[14px] text-soft">SHA-256 of the text</p>
      <p className="break-all font-mono text-[14px]">{hash}</p>
      {acceptance && acceptance.acknowledged.length > 0 && (
        <>
          <p className="mt-3 font-semibold">Read and ticked</p>
          <ul className="list-disc pl-5">
            {acceptance.acknowledged.map((text) => (
              <li key={text} className="py-1">
                {text}
              </li>
            ))}
          </ul>
        </>
      )}
    </Section>
  );
}

function Shown({ proof: { frozen } }: { proof: Proof }) {
  const { shop, customer, locale } = frozen;
  return (
    <>
      <Section title="What was shown">
        <p className="whitespace-pre-line">
          {[shop.legalName || shop.name, shop.address, shop.taxNumber].filter(Boolean).join("\n")}
        </p>
        <p className="mt-3">
          {`For ${customer.name}: ${frozen.bike.name}${frozen.bike.plate ? `, ${frozen.bike.plate}` : ""}. Valid until `}
          <DateText date={frozen.validUntil} locale={locale} look="long" />.
        </p>
        <ul className="mt-2">
          {frozen.options.map((o) => (
            <li key={o.key} className="border-hair border-b py-2">
              <strong>{o.name}</strong>
              {(frozen.taken ?? []).includes(o.name) && (
                <span className="text-soft"> · added by the customer when accepting</span>
              )}
              <span className="block text-[15px]">{o.plain}</span>
            </li>
          ))}
        </ul>
        {frozen.cautions.length > 0 && (
          <ul className="mt-3 list-disc pl-5">
            {frozen.cautions.map((c) => (
              <li key={c}>{c}</li>
            ))}
          </ul>
        )}
      </Section>
      <PriceSection price={frozenPrice(frozen)} />
    </>
  );
}
