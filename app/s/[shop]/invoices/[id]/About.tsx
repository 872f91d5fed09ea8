import { Fragment } from "react";
import { DateText } from "@/app/_ui/DateText";
import { Link } from "@/app/_ui/Link";
import type { InvoiceView } from "@/lib/data/invoices/get";
import { markedNumber } from "@/lib/domain/tax/sellerNumber";
import { KIND_WORDS } from "@/lib/schemas/invoices";

/** What the document hangs on: its job, its customer, and what it credits or is credited with. */
export function About({ slug, invoice }: { slug: string; invoice: InvoiceView }) {
  const link = "underline decoration-hair underline-offset-4 hover:decoration-ink";
  return (
    <>
      {invoice.jobs.length > 0 ? (
        invoice.jobs.map((job, at) => (
          <Fragment key={job.id}>
            {at > 0 && ", "}
            <Link className={link} href={`/s/${slug}/jobs/${job.id}`}>
              {at === 0 ? "Job" : "job"} {job.number}
            </Link>
          </Fragment>
        ))
      ) : (
        <Link className={link} href={`/s/${slug}/counter/${invoice.saleId}`}>
          Sold over the counter
        </Link>
      )}
      {invoice.customer && (
        <>
          {" · "}
          <Link className={link} href={`/s/${slug}/customers/${invoice.customer.id}`}>
            {invoice.customer.name}
          </Link>
        </>
      )}
      {invoice.credits && (
        <>
          {" · credits "}
          <Link className={link} href={`/s/${slug}/invoices/${invoice.credits.id}`}>
            {KIND_WORDS[invoice.credits.kind]} {invoice.credits.written}
          </Link>
          {`: ${invoice.reason}`}
        </>
      )}
      {invoice.creditedBy.map((credit, at) => (
        <Fragment key={credit.id}>
          {at > 0 ? ", " : invoice.takenBack ? " · credited with " : " · credited in part with "}
          <Link className={link} href={`/s/${slug}/invoices/${credit.id}`}>
            credit note {credit.written}
          </Link>
        </Fragment>
      ))}
    </>
  );
}

/** What is printed beside the lines. */
export function printedRows(invoice: InvoiceView, locale: string) {
  const { doc } = invoice;
  if (!doc) return [];
  const day = (given: string) => <DateText date={given} locale={locale} />;
  return [
    { name: "Title", value: doc.kind === "creditNote" ? "Credit note" : doc.title },
    { name: "Rule", value: doc.rule.tier },
    { name: invoice.state === "draft" ? "Would be issued" : "Issued", value: day(doc.issuedOn) },
    ...(doc.kind === "invoice" ? [{ name: "Due", value: day(doc.dueOn) }] : []),
    { name: doc.jobs.length > 0 ? "Work finished" : "Sold", value: day(doc.supplyOn) },
    {
      name: doc.seller.numberName,
      value: markedNumber(doc.seller.taxNumber, doc.seller.numberName, doc.seller.numberMarks ?? []),
      mono: true,
    },
    {
      name: "To",
      value: (
        <span className="whitespace-pre-line">
          {[doc.buyer.name, doc.buyer.address, doc.buyer.taxNumber].filter(Boolean).join("\n")}
        </span>
      ),
    },
    ...doc.jobs.map(({ bike }) => ({
      name: "Bike",
      value: [bike.name, bike.plate].filter(Boolean).join(", "),
    })),
    ...(invoice.hash
      ? [
          {
            name: "Frozen as",
            value: <span title={invoice.hash}>{invoice.hash.slice(0, 12)}</span>,
            mono: true,
          },
        ]
      : []),
  ];
}
