import { notFound } from "next/navigation";
import { distanceText } from "@/app/_ui/distanceText";
import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { Instant } from "@/app/_ui/Instant";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Paper } from "@/app/_ui/Paper";
import { Section } from "@/app/_ui/Section";
import { arrivalOfJob } from "@/lib/data/arrivals/get";
import { cardReadings } from "@/lib/data/jobs/cardReadings";
import { getJob } from "@/lib/data/jobs/get";
import { handedOver } from "@/lib/data/papers/handedOver";
import { needlesOnPaper } from "@/lib/data/papers/handover";
import { VERIFY } from "@/lib/domain/reason";
import { handedReadings } from "@/lib/domain/sheets/handedOver";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { ArrivalAgain } from "../../../arrivals/ArrivalShown";
import { JobDescribed } from "../JobDescribed";
import { JobNeedles } from "../JobNeedles";
import { PrintButton } from "../PrintButton";
import { paperOf } from "../paper";
import { SheetTable } from "../SheetTable";
import { HandedOver } from "./HandedOver";
import { LetPass, Measured } from "./Measured";

export default async function HandoverPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("job.read", slug);
  const job = await getJob(shop, pathId(id));
  if (!job) notFound();
  const { locale, zone, country, units } = shop.settings;
  const [arrival, end] = await Promise.all([arrivalOfJob(shop, job.id), handedOver(shop, job.id)]);
  const here = `/s/${slug}/jobs/${job.id}`;
  const { asLeft } = job.sheets;
  if (!asLeft && job.finishedAt === null)
    return (
      <>
        <title>{`Handover of job ${job.number} · ${shop.name}`}</title>
        <Empty
          title="Nothing to hand over yet."
          text="The handover sheet is made of the as-left sheet: record that first."
          action={<LinkButton href={here}>Back to the job</LinkButton>}
        />
      </>
    );
  const done = job.steps.filter((step) => step.kind === "operation" && step.state === "done");
  const handed = handedReadings(
    await cardReadings(shop.read, job.id),
    asLeft?.values ?? [],
    needlesOnPaper(job.needles),
  );
  return (
    <Paper size={paperOf(country)}>
      <title>{`Handover of job ${job.number} · ${shop.name}`}</title>
      <div className="mb-4 flex flex-wrap gap-2.5 print:hidden">
        <LinkButton href={here}>Back to the job</LinkButton>
        {job.state === "ready" && shop.can("invoice.write") && (
          <LinkButton href={`/s/${slug}/invoices/new?job=${job.id}`}>Invoice</LinkButton>
        )}
        <LinkButton href={`/api${here}/handover`} download>
          PDF
        </LinkButton>
        <PrintButton />
      </div>
      <header className="mb-4 flex items-end justify-between gap-4 border-ink border-b-2 pb-2">
        <div>
          <h1 className="font-bold text-[26px] leading-tight">Handover</h1>
          <p>
            Job {job.number}, {job.bike.name}
          </p>
        </div>
        <p className="text-end">
          <strong>{shop.settings.name}</strong>
          <br />
          {job.finishedAt && (
            <Instant at={job.finishedAt.toISOString()} locale={locale} zone={zone} look="date" />
          )}
        </p>
      </header>
      <Section title="For">
        <Facts
          rows={[
            { name: "Customer", value: job.customer.name },
            { name: "Work", value: job.title },
            ...(job.odometerKm === null
              ? []
              : [{ name: "Odometer in", value: distanceText(job.odometerKm, units, locale), mono: true }]),
            ...(asLeft?.odometerKm == null
              ? []
              : [
                  { name: "Odometer out", value: distanceText(asLeft.odometerKm, units, locale), mono: true },
                ]),
          ]}
        />
      </Section>
      {arrival && (
        <Section title="As it came">
          <ArrivalAgain arrival={arrival} place={shop.settings} />
        </Section>
      )}
      <Section title="Done">
        <ul className="list-disc pl-5">
          {done.map((step) => (
            <li key={step.id}>{step.name}</li>
          ))}
        </ul>
      </Section>
      {asLeft ? (
        <Section title="Settings, before and now">
          <SheetTable sheets={{ ...job.sheets, target: null }} locale={locale} />
          <JobNeedles needles={job.needles.map((one) => ({ ...one, target: null }))} locale={locale} />
          <JobDescribed
            described={job.described.filter((one) => one.left)}
            columns={["As found", "As left"]}
          />
          <LetPass readings={handed.letPass} />
          {asLeft.note && <p>{asLeft.note}</p>}
        </Section>
      ) : (
        <>
          {job.needles.length > 0 && (
            <Section title="Needle">
              <JobNeedles needles={job.needles.map((one) => ({ ...one, target: null }))} locale={locale} />
            </Section>
          )}
          {job.notes && (
            <Section title="Note">
              <p className="whitespace-pre-line">{job.notes}</p>
            </Section>
          )}
        </>
      )}
      <Measured readings={handed.readings} locale={locale} />
      <Section title="Please know">
        <p>
          {VERIFY} Come back at once if the throttle sticks, fuel drips, or the engine pings or runs hot.
          Changes to airbox, exhaust and mixture may touch approval, emissions, noise and insurance: ask your
          licensed inspector.
        </p>
      </Section>
      {end && <HandedOver shop={shop} jobId={job.id} finished={job.finishedAt !== null} end={end} />}
    </Paper>
  );
}
