import { notFound } from "next/navigation";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { previewInvoice } from "@/lib/data/invoices/get";
import { askedId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { JOB_WORDS } from "@/lib/schemas/jobWords";
import { BasisChoice } from "./BasisChoice";
import { Deposits } from "./Deposits";

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
  const jobId = askedId(asked);
  const view = jobId === undefined ? null : await previewInvoice(shop, jobId);
  if (!view) notFound();
  const { job, live } = view;
  const done = job.state === "ready" || job.state === "invoiced" || job.state === "closed";
  const mayDraft = shop.can("invoice.write") && done && !live;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Invoice job ${job.number}`}
        sub={
          <Link href={`/s/${slug}/jobs/${job.id}`} className="underline decoration-hair underline-offset-4">
            {job.title}, {job.customer}
          </Link>
        }
        actions={
          live && (
            <LinkButton href={`/s/${slug}/invoices/${live.id}`} tone="main">
              Open the {live.state === "draft" ? "draft" : `invoice ${live.written}`}
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
        <BasisChoice
          title="As quoted: the agreed lines and variations"
          basis="fixed"
          drafted={view.fixed}
          slug={slug}
          jobId={job.id}
          may={mayDraft}
          joinable={view.joinable}
          drafts={view.drafts}
        />
        <BasisChoice
          title="As worked: minutes spent and parts used"
          basis="asWorked"
          drafted={view.asWorked}
          slug={slug}
          jobId={job.id}
          may={mayDraft}
          joinable={view.joinable}
          drafts={view.drafts}
        />
      </div>
      <Deposits slug={slug} view={view} settings={shop.settings} mayPay={shop.can("payment.write")} />
    </>
  );
}
