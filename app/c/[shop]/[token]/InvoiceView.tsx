import { notFound } from "next/navigation";
import type { ReactNode } from "react";
import { HowToPay } from "@/app/_documents/HowToPay";
import { PrintedLines } from "@/app/_documents/PrintedLines";
import { dateText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { moneyText } from "@/app/_ui/moneyText";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { shownInvoice } from "@/lib/data/invoices/shown";
import type { OpenedLink } from "@/lib/gate/customer";
import { wordsIn } from "@/lib/words/words";

interface Props {
  link: OpenedLink;
  token: string;
  foot: ReactNode;
}

/** An invoice or credit note as its customer sees it: what was charged, what is left to pay, and how. */
export async function InvoiceView({ link, token, foot }: Props) {
  if (link.invoiceId === null) notFound();
  const shown = await shownInvoice(link.shop, link.invoiceId);
  if (!shown) notFound();
  const { leftMinor, creditedWith, credits } = shown;
  const { locale } = link;
  const doc = { ...shown.doc, locale };
  const say = wordsIn(locale);
  const title = doc.kind === "creditNote" ? say("invoicePage.creditNote") : doc.title;
  const day = (given: string) => dateText(given, locale, "long");
  const left = moneyText(Math.abs(leftMinor), doc.currency, locale, true);
  return (
    <main className="mx-auto max-w-[40rem] px-5 pt-6 pb-16">
      <p className="text-[15px] text-soft">{doc.seller.name}</p>
      <h1 className="mt-1 border-ink border-b-2 pb-2 font-bold text-[26px] leading-tight">
        {title} {doc.written}
      </h1>
      <p className="mt-2 mb-6 text-[15px]">
        {doc.jobs.map((job) => (
          <span key={job.number}>
            {say("invoicePage.forJob", { buyer: doc.buyer.name, bike: job.bike.name, title: job.title })}{" "}
          </span>
        ))}
        {say("invoicePage.issued", { day: day(doc.issuedOn) })}
      </p>
      {doc.credits && (
        <Note
          title={say(
            doc.credits.kind === "receipt" ? "invoicePage.takesBackReceipt" : "invoicePage.takesBackInvoice",
            { number: doc.credits.written },
          )}
        >
          {doc.credits.reason}
        </Note>
      )}
      {creditedWith !== "" && (
        <Note title={say("invoicePage.takenBack", { number: creditedWith })}>
          {say("invoicePage.nothingToPay")}
        </Note>
      )}
      <Section title={say(linesTitle(doc))}>
        <PrintedLines doc={doc} plain spoken={locale} />
      </Section>
      {doc.kind !== "creditNote" && creditedWith === "" && (
        <Section title={say("invoicePage.paying")}>
          {credits.map((credit) => (
            <p key={credit.written}>
              {say("invoicePage.creditedInPart", {
                number: credit.written,
                amount: moneyText(credit.minor, doc.currency, locale, true),
              })}
            </p>
          ))}
          {leftMinor > 0 && (
            <>
              <p className="mb-2">
                <strong>{say("invoicePage.toPay", { amount: left, day: day(doc.dueOn) })}</strong>
              </p>
              <HowToPay ask={shown.ask} currency={doc.currency} amountMinor={leftMinor} locale={locale} />
            </>
          )}
          {leftMinor === 0 && (
            <p>{say(shown.writtenOff ? "invoicePage.nothingToPay" : "invoicePage.paidInFull")}</p>
          )}
          {leftMinor < 0 && <p>{say("invoicePage.paidTooMuch", { amount: left })}</p>}
        </Section>
      )}
      <LinkButton href={`/c/${link.shop.slug}/${token}/pdf`} download>
        {say("invoicePage.keepPdf")}
      </LinkButton>
      {foot}
    </main>
  );
}

const linesTitle = ({ kind, jobs }: { kind: string; jobs: readonly unknown[] }) =>
  kind === "creditNote"
    ? "invoicePage.whatWasCredited"
    : jobs.length > 0
      ? "invoicePage.whatWasDone"
      : "invoicePage.parts";
