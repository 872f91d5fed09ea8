import { DateText } from "@/app/_ui/DateText";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { InvoiceView } from "@/lib/data/invoices/get";
import { BASIS_WORDS } from "@/lib/schemas/invoices";
import { addToDraft, discard, issue, switchBasis, takeOffDraft } from "../actions";
import { EarlierDate } from "./EarlierDate";

export interface ActsProps {
  slug: string;
  invoice: InvoiceView;
  currency: string;
  locale: string;
  mayInvoice: boolean;
  mayPay: boolean;
  mayWriteOff: boolean;
  mayChase: boolean;
}

/** Issuing cannot be undone, so it is asked for in words. */
export function DraftActs({ slug, invoice, locale, mayInvoice }: ActsProps) {
  const { doc } = invoice;
  if (!mayInvoice || !doc) return null;
  return (
    <Dialog trigger="Issue" triggerTone="main" title={`Issue the ${doc.title.toLowerCase()}?`}>
      <Form
        action={issue}
        shop={slug}
        hidden={{ ...seen(invoice), shownMinor: String(doc.grossMinor) }}
        label="Issue"
      >
        <p className="max-w-prose">
          It gets the next number, is dated today and is due <DateText date={doc.dueOn} locale={doc.locale} />
          . The total is{" "}
          <strong>
            <Money minor={doc.grossMinor} currency={doc.currency} locale={doc.locale} code />
          </strong>
          {doc.prepaidMinor !== 0 && (
            <>
              , of which <Money minor={doc.prepaidMinor} currency={doc.currency} locale={doc.locale} code />{" "}
              is paid
            </>
          )}
          .
        </p>
        <p className="mt-2 mb-4 max-w-prose">
          <strong>This cannot be undone.</strong> An issued invoice never changes; only a credit note takes it
          back.
        </p>
        <EarlierDate later={invoice.later} today={invoice.today} locale={locale} />
        <SubmitButton>Issue it for good</SubmitButton>
      </Form>
    </Dialog>
  );
}

const seen = (invoice: ActsProps["invoice"]) => ({
  id: String(invoice.id),
  version: String(invoice.version),
});

/** The lesser acts on a draft: the other basis, or away with it. */
export function DraftOtherwise({ slug, invoice, mayInvoice }: ActsProps) {
  if (!mayInvoice) return null;
  const [only, ...further] = invoice.jobs;
  return (
    <Section title="Otherwise">
      <div className="flex flex-wrap gap-2.5">
        {only && further.length === 0 && (
          <>
            <SwitchBasis slug={slug} invoice={invoice} job={only} />
            <LinkButton href={`/s/${slug}/invoices/new?job=${only.id}`}>Compare both</LinkButton>
          </>
        )}
        <Form action={discard} shop={slug} hidden={seen(invoice)} label="Discard the draft">
          <SubmitButton tone="second">Discard the draft</SubmitButton>
        </Form>
      </div>
    </Section>
  );
}

/** Charges a job of the draft the other way. */
function SwitchBasis({
  slug,
  invoice,
  job,
}: Pick<ActsProps, "slug" | "invoice"> & { job: ActsProps["invoice"]["jobs"][number] }) {
  const other = job.basis === "fixed" ? "asWorked" : "fixed";
  const which = invoice.jobs.length > 1 ? ` job ${job.number}` : "";
  return (
    <Form
      action={switchBasis}
      shop={slug}
      hidden={{ ...seen(invoice), jobId: String(job.id), basis: other }}
      label={`Change the basis${which}`}
    >
      <SubmitButton tone="second">
        Charge<span className="sr-only">{which}</span> {BASIS_WORDS[other]}
      </SubmitButton>
    </Form>
  );
}

/** The jobs of a draft of several, and those of the same customer that could stand on it too. */
export function JobsOnIt({ slug, invoice, mayInvoice }: ActsProps) {
  const { jobs, joinable } = invoice;
  if (!mayInvoice || (jobs.length <= 1 && joinable.length === 0)) return null;
  const row = "border-hair border-b py-2.5";
  return (
    <Section title="Jobs on it">
      <ul>
        {jobs.map((job, at) => (
          <li key={job.id} className={row}>
            Job {job.number}: {job.title}, {BASIS_WORDS[job.basis === "fixed" ? "fixed" : "asWorked"]}
            {jobs.length > 1 && (
              <div className="mt-1.5 flex flex-wrap gap-2.5">
                <SwitchBasis slug={slug} invoice={invoice} job={job} />
                {at > 0 && (
                  <Form
                    action={takeOffDraft}
                    shop={slug}
                    hidden={{ ...seen(invoice), jobId: String(job.id) }}
                    label={`Take job ${job.number} off`}
                  >
                    <SubmitButton tone="quiet">
                      Take<span className="sr-only"> job {job.number}</span> off
                    </SubmitButton>
                  </Form>
                )}
              </div>
            )}
          </li>
        ))}
        {joinable.map((job) => (
          <li key={job.id} className={row}>
            <span className="text-soft">
              Job {job.number}: {job.title}, not on it
            </span>
            <div className="mt-1.5 flex flex-wrap gap-2.5">
              {(["fixed", "asWorked"] as const).map((basis) => (
                <Form
                  key={basis}
                  action={addToDraft}
                  shop={slug}
                  hidden={{ ...seen(invoice), jobId: String(job.id), basis }}
                  label={`Add job ${job.number} ${BASIS_WORDS[basis]}`}
                >
                  <SubmitButton tone="quiet">
                    Add<span className="sr-only"> job {job.number}</span> {BASIS_WORDS[basis]}
                  </SubmitButton>
                </Form>
              ))}
            </div>
          </li>
        ))}
      </ul>
    </Section>
  );
}
