import Link from "next/link";
import { notFound } from "next/navigation";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { Drafted } from "@/lib/data/invoices/get";
import { previewInvoice } from "@/lib/data/invoices/get";
import type { Basis } from "@/lib/domain/invoices/printed";
import { open } from "@/lib/gate/open";
import { JOB_WORDS } from "@/lib/schemas/jobWords";
import { giveBack, makeDraft, takeDeposit } from "../actions";
import { MoneyForm } from "../MoneyForm";
import { PaymentList } from "../PaymentList";
import { PrintedLines } from "../PrintedLines";

/** A job's money before its invoice: both ways of invoicing side by side, and deposits. */
export default async function NewInvoicePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ job?: string | string[] }>;
}) {
  const { shop: slug } = await params;
  const { job: asked } = await searchParams;
  const shop = await open("invoice.read", slug);
  const view =
    typeof asked === "string" && /^[1-9]\d{0,14}$/.test(asked)
      ? await previewInvoice(shop, Number(asked))
      : null;
  if (!view) notFound();
  const { currency, locale, cashRoundingMinor } = shop.settings;
  const { job, live } = view;
  const done = job.state === "ready" || job.state === "invoiced" || job.state === "closed";
  const mayDraft = shop.can("invoice.write") && done && !live;
  const agreed = view.fixed.doc?.grossMinor ?? 0;
  const mayDeposit =
    shop.can("payment.write") &&
    live?.state !== "issued" &&
    job.state !== "cancelled" &&
    agreed > view.heldMinor;
  const form = { shop: slug, currency, locale, stepMinor: cashRoundingMinor, today: view.today };
  return (
    <>
      <PageHead
        title={`Invoice job ${job.number}`}
        sub={
          <Link href={`/s/${slug}/jobs/${job.id}`} className="underline decoration-hair underline-offset-4">
            {job.title}, {job.customer}
          </Link>
        }
        actions={
          live && (
            <LinkButton href={`/s/${slug}/invoices/${live.id}`} tone="main">
              Open the {live.state === "draft" ? "draft" : `invoice ${live.number}`}
            </LinkButton>
          )
        }
      />
      {!done && (
        <Note title={`The job is ${JOB_WORDS[job.state].word}.`}>
          {job.state === "cancelled"
            ? "A cancelled job is not invoiced."
            : "It is invoiced once it is ready; what it comes to so far stands below."}
        </Note>
      )}
      <div className="grid gap-x-10 rail:grid-cols-2">
        <Way
          title="As quoted: the agreed lines and variations"
          basis="fixed"
          drafted={view.fixed}
          slug={slug}
          jobId={job.id}
          may={mayDraft}
        />
        <Way
          title="As worked: minutes spent and parts used"
          basis="asWorked"
          drafted={view.asWorked}
          slug={slug}
          jobId={job.id}
          may={mayDraft}
        />
      </div>
      <Section title="Paid before the invoice">
        {view.payments.length > 0 ? (
          <PaymentList payments={view.payments} currency={currency} locale={locale} />
        ) : (
          <p className="text-soft">Nothing yet.</p>
        )}
        {view.depositAskedMinor > 0 && (
          <p className="mt-2">
            The quote asks for a deposit of{" "}
            <Money minor={view.depositAskedMinor} currency={currency} locale={locale} code />.
          </p>
        )}
        <div className="mt-3 flex flex-wrap gap-2.5">
          {mayDeposit && (
            <Dialog trigger="Record a deposit" title="Deposit">
              <MoneyForm
                {...form}
                action={takeDeposit}
                hidden={{ jobId: String(job.id) }}
                mostMinor={agreed - view.heldMinor}
                amountMinor={Math.min(
                  agreed - view.heldMinor,
                  Math.max(0, view.depositAskedMinor - view.heldMinor) || agreed - view.heldMinor,
                )}
                submit="Record the deposit"
                reference="Reference, if any"
              />
            </Dialog>
          )}
          {shop.can("payment.write") && view.heldMinor > 0 && live?.state !== "issued" && (
            <Dialog trigger="Give money back" title="Give money back">
              <MoneyForm
                {...form}
                action={giveBack}
                hidden={{ jobId: String(job.id) }}
                mostMinor={view.heldMinor}
                amountMinor={view.heldMinor}
                submit="Record as given back"
                reference="Why it goes back"
              />
            </Dialog>
          )}
        </div>
      </Section>
    </>
  );
}

function Way({
  title,
  basis,
  drafted,
  slug,
  jobId,
  may,
}: {
  title: string;
  basis: Basis;
  drafted: Drafted;
  slug: string;
  jobId: number;
  may: boolean;
}) {
  return (
    <Section title={title}>
      {drafted.doc ? (
        <PrintedLines doc={drafted.doc} />
      ) : (
        <Note title={drafted.refused?.message}>{drafted.refused?.remedy}</Note>
      )}
      {may && drafted.doc && (
        <Form
          action={makeDraft}
          shop={slug}
          hidden={{ jobId: String(jobId), basis }}
          className="mt-3"
          label={title}
        >
          <SubmitButton tone={basis === "fixed" ? "main" : "second"}>
            Draft it {basis === "fixed" ? "as quoted" : "as worked"}
          </SubmitButton>
        </Form>
      )}
    </Section>
  );
}
