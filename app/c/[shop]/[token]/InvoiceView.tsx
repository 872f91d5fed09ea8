import { notFound } from "next/navigation";
import { PrintedLines } from "@/app/_documents/PrintedLines";
import { DateText } from "@/app/_ui/DateText";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { shownInvoice } from "@/lib/data/invoices/shown";
import type { OpenedLink } from "@/lib/gate/customer";

/** An invoice or credit note as its customer sees it: what was charged, what is left to pay, and how. */
export async function InvoiceView({ link, token }: { link: OpenedLink; token: string }) {
  if (link.invoiceId === null) notFound();
  const shown = await shownInvoice(link.shop, link.invoiceId);
  if (!shown) notFound();
  const { doc, leftMinor, creditedWith } = shown;
  const { seller } = doc;
  const title = doc.kind === "creditNote" ? "Credit note" : doc.title;
  const day = (given: string) => <DateText date={given} locale={doc.locale} look="long" />;
  const left = (
    <strong>
      <Money minor={Math.abs(leftMinor)} currency={doc.currency} locale={doc.locale} code />
    </strong>
  );
  return (
    <main className="mx-auto max-w-[40rem] px-5 pt-6 pb-16">
      <p className="text-[15px] text-soft">{seller.name}</p>
      <h1 className="mt-1 border-ink border-b-2 pb-2 font-bold text-[26px] leading-tight">
        {title} {doc.written}
      </h1>
      <p className="mt-2 mb-6 text-[15px]">
        {doc.jobs.map((job) => (
          <span key={job.number}>
            For {doc.buyer.name}, {job.bike.name}: {job.title}.{" "}
          </span>
        ))}
        Issued {day(doc.issuedOn)}.
      </p>
      {doc.credits && (
        <Note title={`Takes back ${doc.credits.kind} ${doc.credits.written}.`}>{doc.credits.reason}</Note>
      )}
      {creditedWith !== null && (
        <Note title={`Taken back with credit note ${creditedWith}.`}>Nothing is to be paid for it.</Note>
      )}
      <Section title={doc.jobs.length > 0 ? "What was done" : "Parts"}>
        <PrintedLines doc={doc} plain />
      </Section>
      {doc.kind !== "creditNote" && creditedWith === null && (
        <Section title="Paying">
          {leftMinor > 0 && (
            <p className="whitespace-pre-line">
              {left} is to be paid by {day(doc.dueOn)}, with the reference {doc.written}.
              {seller.bankDetails && `\n${seller.bankDetails}`}
            </p>
          )}
          {leftMinor === 0 && <p>Paid in full. Thank you.</p>}
          {leftMinor < 0 && <p>You paid {left} more than this comes to: it goes back to you.</p>}
        </Section>
      )}
      <LinkButton href={`/c/${link.shop.slug}/${token}/pdf`} download>
        Keep it as a PDF
      </LinkButton>
      <footer className="mt-10 border-rule border-t pt-4 text-[15px] text-soft">
        <p>{seller.legalName || seller.name}</p>
        <p className="whitespace-pre-line">
          {[
            seller.address,
            seller.phone,
            seller.email,
            seller.taxNumber && `${seller.numberName} ${seller.taxNumber}`,
          ]
            .filter(Boolean)
            .join("\n")}
        </p>
      </footer>
    </main>
  );
}
