import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { dateText, minutesText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { type JobLine, listJobs } from "@/lib/data/jobs/list";
import { askedId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { JOB_STATES, type JobState } from "@/lib/schemas/jobs";
import { JOB_WORDS, jobWord } from "@/lib/schemas/jobWords";
import { WAIT_WORDS, type WaitReason } from "@/lib/schemas/waits";

const COLUMNS: readonly TableColumn[] = [
  { key: "number", header: "Job" },
  { key: "state", header: "State", kind: "state" },
  { key: "bike", header: "Bike" },
  { key: "customer", header: "Customer" },
  { key: "booked", header: "Booked", kind: "instant" },
  { key: "time", header: "Spent of planned", kind: "figure" },
  { key: "short", header: "Short parts", kind: "figure" },
];

export default async function Jobs({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | undefined>>;
}) {
  const { shop: slug } = await params;
  const query = await searchParams;
  const shop = await open("job.read", slug);
  const state = JOB_STATES.find((one) => one === query.state) as JobState | undefined;
  const after = askedId(query.after);
  const { jobs, next } = await listJobs(shop, { state, q: query.q, after });
  const { locale, zone } = shop.settings;
  return (
    <>
      <PageHead of={shop.name} title="Jobs" sub="Accepted work, newest first." />
      <DataTable
        caption="Jobs"
        columns={COLUMNS}
        rows={jobs.map((job) => {
          const { word, shape, tone } = jobWord(job);
          return {
            id: String(job.id),
            href: `/s/${slug}/jobs/${job.id}`,
            number: { text: `Job ${job.number}`, sub: job.title },
            state: { word, shape, tone, sub: nowText(job, locale) },
            bike: job.bike,
            customer: job.customer,
            booked: job.bookedAt,
            time: `${minutesText(job.spentMinutes, "min", "h")} of ${minutesText(job.plannedMinutes, "min", "h")}`,
            short: job.shortParts || null,
          };
        })}
        locale={locale}
        zone={zone}
        path={`/s/${slug}/jobs`}
        query={query}
        search="Number, customer or bike"
        filters={[
          {
            name: "state",
            label: "State",
            options: JOB_STATES.map((value) => ({ value, label: JOB_WORDS[value].word })),
          },
        ]}
        next={next === null ? null : String(next)}
        previous={after ? "" : null}
        empty={
          state || query.q ? (
            <Empty title="No job like this." text="Take the search or the filter away to see all of them." />
          ) : (
            <Empty
              title="No job yet."
              text="A job begins when a customer accepts a quote: its plan, parts and settings come with it."
              action={<LinkButton href={`/s/${slug}/quotes`}>To the quotes</LinkButton>}
            />
          )
        }
      />
    </>
  );
}

/** Who is on a job or on a break from it, and what it waits for until when; empty where nothing of it is so. */
function nowText({ on, wait }: JobLine, locale: string): string {
  const people = on.map((one) => (one.onBreak ? `${one.name} is on a break` : `${one.name} is on it`));
  return [...people, ...(wait ? [`waits for ${waitText(wait, locale)}`] : [])].join("; ");
}

/** What a job waits for and until when, in a few words. */
function waitText({ reason, untilOn }: { reason: string; untilOn: string | null }, locale: string): string {
  const what = WAIT_WORDS[reason as WaitReason] ?? reason;
  return untilOn ? `${what}, until ${dateText(untilOn, locale)}` : what;
}
