import { DateText } from "@/app/_ui/DateText";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import type { JobView } from "@/lib/data/jobs/get";
import { movedMinor } from "@/lib/domain/invoices/held";
import { PAYMENT_WORDS } from "@/lib/schemas/paymentWords";

interface JobMoneyProps {
  job: JobView;
  base: string;
  currency: string;
  locale: string;
  /** May take a deposit before the invoice. */
  mayTake: boolean;
  /** Puts the job on a draft of its customer's, where there is one. */
  children?: React.ReactNode;
}

/** The job's share of what was paid, and its documents. */
export function JobMoney({ job, base, currency, locale, mayTake, children }: JobMoneyProps) {
  const open = ["waiting", "booked", "inWork", "ride", "ready"].includes(job.state);
  if (job.invoices.length === 0 && job.payments.length === 0 && !(open && mayTake)) return null;
  const row = "flex justify-between gap-4 border-hair border-b py-2";
  return (
    <Section title="Money">
      <ul>
        {job.payments.map(({ id, kind, amountMinor, paidOn }) => (
          <li key={`d${id}`} className={row}>
            <span className="first-letter:uppercase">
              {PAYMENT_WORDS[kind]}, <DateText date={paidOn} locale={locale} />
            </span>
            <Money minor={movedMinor({ kind, amountMinor })} currency={currency} locale={locale} />
          </li>
        ))}
        {job.invoices.map((invoice) => (
          <li key={invoice.id} className={row}>
            <Link href={`${base}/invoices/${invoice.id}`} className="text-brass underline underline-offset-4">
              {invoice.kind === "creditNote" ? "Credit note" : "Invoice"} {invoice.written || "draft"}
            </Link>
            <Money minor={invoice.grossMinor} currency={currency} locale={locale} />
          </li>
        ))}
      </ul>
      {open && mayTake && (
        <LinkButton href={`${base}/invoices/new?job=${job.id}`} className="mt-3">
          Deposits and receipts
        </LinkButton>
      )}
      {children}
    </Section>
  );
}
