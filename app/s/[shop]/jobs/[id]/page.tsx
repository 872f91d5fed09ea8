import { notFound } from "next/navigation";
import { Caution } from "@/app/_ui/Caution";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { standingArrival } from "@/lib/data/arrivals/get";
import { draftsToJoin } from "@/lib/data/invoices/together";
import { isFree } from "@/lib/data/jobs/closeFree";
import { getJob } from "@/lib/data/jobs/get";
import { insteadOfMissing } from "@/lib/data/jobs/instead";
import { withheldFrom } from "@/lib/data/mail/letters";
import { photosOfJob } from "@/lib/data/photos/list";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { jobWord } from "@/lib/schemas/jobWords";
import { wishText } from "@/lib/schemas/wishes";
import { RunAnswers } from "../../_runs/RunAnswers";
import { AddToDrafts } from "../../invoices/AddToDrafts";
import { JobLink } from "../../invoices/JobLink";
import { Agreement } from "./Agreement";
import { CancelJob } from "./CancelJob";
import { JobBookings } from "./JobBookings";
import { JobDescribed } from "./JobDescribed";
import { JobFindings } from "./JobFindings";
import { JobMoney } from "./JobMoney";
import { JobNeedles } from "./JobNeedles";
import { JobNotes, JobWaits } from "./JobNotes";
import { JobParts } from "./JobParts";
import { JobPhotos } from "./JobPhotos";
import { JobPlan } from "./JobPlan";
import { JobRides } from "./JobRides";
import { JobSteps } from "./JobSteps";
import { NextAct } from "./NextAct";
import { OnJobNow } from "./OnJobNow";
import { SheetTable } from "./SheetTable";
import { planRows, timeOfSteps } from "./stepRows";
import { TimeEntries } from "./TimeEntries";
import { WhoAndWhat } from "./WhoAndWhat";

export default async function JobPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("job.read", slug);
  const job = await getJob(shop, pathId(id));
  if (!job) notFound();
  const photos = await photosOfJob(shop, shop.can("photo.read") ? job : { steps: [], findings: [] });
  const billable = job.state === "ready" && !isFree(job.agreement) && job.invoices.length === 0;
  const drafts = billable && shop.can("invoice.write") ? await draftsToJoin(shop, job.id) : [];
  const ready = ["ready", "invoiced"].includes(job.state)
    ? { withheld: await withheldFrom(shop.read, "ready", job.customer) }
    : null;
  const { locale, zone } = shop.settings;
  const { word, shape, tone } = jobWord(job);
  const base = `/s/${slug}`;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Job ${job.number}`}
        sub={`${job.bike.name} · ${job.title}`}
        state={
          <State shape={shape} tone={tone}>
            {word}
          </State>
        }
        actions={
          <>
            {shop.can("job.write") && (
              <JobLink slug={slug} jobId={job.id} customer={job.customer} ready={ready} />
            )}
            {shop.can("job.write") && ["invoiced", "closed"].includes(job.state) && (
              <LinkButton href={`${base}/jobs/new?bike=${job.bike.id}&of=${job.id}`}>
                It comes back
              </LinkButton>
            )}
            {shop.can("package.write") && ["ready", "invoiced", "closed"].includes(job.state) && (
              <LinkButton href={`${base}/jobs/${job.id}/different`}>Keep what was different</LinkButton>
            )}
            <LinkButton href={`${base}/jobs/${job.id}/print`}>Card on paper</LinkButton>
            <NextAct shop={shop} job={job} />
          </>
        }
      />
      <JobWaits job={job} locale={locale} />
      <OnJobNow on={job.onNow} shop={shop} />
      {job.stopped && (
        <Caution title="Stopped.">
          {job.stopped}. Measure again on the card, or an owner overrides it with a reason.
        </Caution>
      )}
      <div className="grid gap-x-10 lg:grid-cols-[minmax(0,1.35fr)_minmax(0,1fr)]">
        <div className="min-w-0">
          <Section title="Plan">
            <JobPlan {...planRows(job.steps)} />
          </Section>
          <Section title="Steps and time">
            <JobSteps time={timeOfSteps(job)} card={`${base}/jobs/${job.id}/card`} />
            <p className="mt-2">
              <Link
                href={`${base}/jobs/${job.id}/time`}
                className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
              >
                Planned, spent and billed by operation, person and package
              </Link>
            </p>
            <JobNotes job={job} />
            <TimeEntries
              job={job}
              base={base}
              correct={shop.can("job.work") && job.state !== "closed"}
              zone={zone}
              locale={locale}
            />
          </Section>
          <Section title="Settings">
            <SheetTable sheets={job.sheets} locale={locale} />
            <JobNeedles needles={job.needles} home={`${base}/bikes/${job.bike.id}`} locale={locale} />
            <JobDescribed described={job.described} columns={["As found", "Target", "As left"]} />
          </Section>
        </div>
        <div className="min-w-0">
          <RunAnswers shop={shop} bikeId={job.bike.id} answers={job.runAnswers} />
          <Section title="Who and what">
            {job.wish && (job.state === "waiting" || job.state === "booked") && (
              <Note title="The customer wishes:">{wishText(job.wish, locale)}.</Note>
            )}
            <WhoAndWhat
              job={job}
              base={base}
              place={shop.settings}
              mayTakeIn={shop.can("intake.write") && job.finishedAt === null}
              arrival={await standingArrival(shop, { jobId: job.id })}
            />
          </Section>
          <Agreement shop={shop} job={job} />
          <JobParts
            job={job}
            base={base}
            slug={slug}
            mayUse={shop.can("stock.use")}
            instead={await insteadOfMissing(shop, job.reservations)}
            locale={shop.settings.locale}
          />
          <JobFindings
            job={job}
            slug={slug}
            mayNote={shop.can("bike.write")}
            mayQuote={shop.can("quote.write")}
            photos={photos.findings}
          />
          <JobPhotos slug={slug} steps={job.steps} photos={photos.steps} />
          <JobRides job={job} base={base} locale={locale} zone={zone} />
          <JobBookings
            job={job}
            base={base}
            locale={locale}
            zone={zone}
            mayBook={shop.can("booking.write")}
          />
          {shop.can("invoice.read") && (
            <JobMoney
              job={job}
              base={base}
              currency={shop.settings.currency}
              locale={locale}
              mayTake={shop.can("payment.write")}
            >
              <AddToDrafts slug={slug} jobId={job.id} basis="fixed" drafts={drafts} className="mt-3" />
            </JobMoney>
          )}
          {shop.can("job.write") && ["waiting", "booked", "inWork", "ride"].includes(job.state) && (
            <CancelJob slug={slug} job={job} />
          )}
        </div>
      </div>
    </>
  );
}
