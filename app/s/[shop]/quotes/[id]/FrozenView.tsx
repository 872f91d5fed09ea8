import type { ReactNode } from "react";
import { WorksDone } from "@/app/_documents/WorksDone";
import { DateText } from "@/app/_ui/DateText";
import { Facts } from "@/app/_ui/Facts";
import { Instant } from "@/app/_ui/Instant";
import { Money } from "@/app/_ui/Money";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { FrozenQuote } from "@/lib/data/documents/quote";
import type { QuotePage } from "@/lib/data/quotes/get";
import { VERIFY } from "@/lib/domain/reason";
import { NoLetter } from "../../_letters/NoLetter";
import { AlternativesOffered } from "./AlternativesOffered";
import { LeftParts } from "./LeftParts";
import { NeedleSection } from "./NeedleSection";
import { PriceSection } from "./PriceSection";
import { SettingsTable } from "./SettingsTable";
import { planShown } from "./shown/plan";
import { frozenPrice } from "./shown/price";
import { settingsShown } from "./shown/settings";
import { WorkPlanSection } from "./WorkPlanSection";

/** A quote as it was printed: nothing here is computed anew. */
export function FrozenView({ quote, frozen }: { slug: string; quote: QuotePage; frozen: FrozenQuote }) {
  const { locale } = frozen;
  return (
    <>
      <div className="grid gap-x-7 rail:grid-cols-[minmax(0,23rem)_minmax(0,1fr)]">
        <div className="min-w-0">
          <Section
            title={frozen.package ? `${frozen.package.name}, revision ${frozen.package.revision}` : "Works"}
          >
            <WorksDone works={frozen.works} options={frozen.options} locale="en" />
            {frozen.settings.length > 0 && (
              <Note title="Starting point.">{VERIFY.replace(/^Starting point: v/, "V")}</Note>
            )}
          </Section>
          {frozen.extras && frozen.extras.length > 0 && (
            <Section title="The customer may add">
              <ul>
                {frozen.extras.map((e) => (
                  <li key={e.key} className="flex justify-between gap-4 border-hair border-b py-2">
                    <span>{e.name}</span>
                    <Money minor={e.grossMinor} currency={frozen.currency} locale={locale} />
                  </li>
                ))}
              </ul>
            </Section>
          )}
          <AlternativesOffered frozen={frozen} answered={quote.acceptance !== null} />
          <Section title="What happened">
            <History quote={quote} />
          </Section>
        </div>
        <div className="min-w-0">
          <PriceSection price={frozenPrice(frozen)} />
          <NeedleSection sheet={frozen.calculation} locale={locale} />
          <LeftParts sheet={frozen.calculation} />
          <SettingsTable settings={settingsShown(frozen.calculation, locale, true)} />
        </div>
      </div>
      <WorkPlanSection plan={planShown({ steps: frozen.steps, minutes: frozen.minutes })} />
    </>
  );
}

const addedBy = (quote: QuotePage) => (quote.frozen?.taken ?? []).join(", ");

/** That a link was opened, not by whom: a mail program may have looked too. */
function openings({ opened }: QuotePage, at: (date: Date) => ReactNode) {
  if (!opened) return [];
  const times = opened.times === 1 ? "once" : `${opened.times} times`;
  return [
    { name: "Link opened", value: times },
    { name: opened.times === 1 ? "Opened" : "First opened", value: at(opened.firstAt) },
    ...(opened.times === 1 ? [] : [{ name: "Last opened", value: at(opened.lastAt) }]),
  ];
}

function History({ quote }: { quote: QuotePage }) {
  const { locale, zone } = quote.terms;
  const at = (date: Date) => <Instant at={date.toISOString()} locale={locale} zone={zone} />;
  const link = quote.links[0];
  return (
    <Facts
      rows={[
        ...(quote.sentAt ? [{ name: "Sent", value: at(quote.sentAt) }] : []),
        ...(quote.belowMargin
          ? [{ name: "Below the least margin", value: `${quote.belowMargin.by}: ${quote.belowMargin.why}` }]
          : []),
        { name: "Valid until", value: <DateText date={quote.validUntil} locale={locale} /> },
        ...(quote.remindedAt ? [{ name: "Reminded", value: at(quote.remindedAt) }] : []),
        ...(addedBy(quote) ? [{ name: "Added by the customer", value: addedBy(quote) }] : []),
        ...openings(quote, at),
        ...(link && !quote.opened && quote.state === "sent"
          ? [{ name: "Link", value: "not opened yet" }]
          : []),
        ...(quote.acceptance
          ? [
              { name: "Accepted by", value: quote.acceptance.typedName },
              { name: "Accepted at", value: at(quote.acceptance.at) },
              {
                name: "How",
                value: quote.acceptance.agent.startsWith("told to")
                  ? quote.acceptance.agent
                  : "by the link, typed by the customer",
              },
            ]
          : []),
        ...(quote.state === "accepted" && quote.withheld
          ? [
              {
                name: "Copy of the yes",
                value: <NoLetter withheld={quote.withheld} customer={quote.customer} link={false} />,
              },
            ]
          : []),
        ...(quote.state === "declined"
          ? [{ name: "Declined because", value: quote.declineReason || "no reason given" }]
          : []),
        ...quote.earlier.map((r) => ({
          name: `Revision ${r.number}`,
          value: r.frozenAt ? at(r.frozenAt) : "never sent",
        })),
        ...(quote.hash ? [{ name: "Print", value: quote.hash.slice(0, 16), mono: true }] : []),
      ]}
    />
  );
}
