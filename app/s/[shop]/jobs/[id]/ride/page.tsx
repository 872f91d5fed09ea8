import { notFound } from "next/navigation";
import { Caution } from "@/app/_ui/Caution";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { recallLike } from "@/lib/data/figures/recall";
import { getRides } from "@/lib/data/rides/get";
import { distanceUnit } from "@/lib/domain/units/distance";
import { shownUnit } from "@/lib/domain/units/systems";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { systemOf } from "@/lib/schemas/bench";
import { recallFilter } from "@/lib/schemas/recall";
import { Recalled } from "../../../_recall/Recalled";
import { Corrections } from "./Corrections";
import { RideForm } from "./RideForm";
import { RideList } from "./RideList";
import { RideLog } from "./RideLog";

const LINK = "in-line text-brass";

export default async function RidePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ recall?: string | string[] }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("job.read", slug);
  const job = await getRides(shop, pathId(id));
  if (!job) notFound();
  const recall = await recallLike(shop, job.bikeId, recallFilter((await searchParams).recall));
  const system = systemOf(shop.settings.units);
  const here = `/s/${slug}/jobs/${job.id}`;
  const newest = job.rides[0];
  const accepted = newest?.corrections.find((one) => one.acceptedAt !== null);
  const choosing = newest !== undefined && !newest.good && !accepted;
  const inWork = job.state === "inWork" || job.state === "ride";
  const rideable = inWork && !job.stopped && (job.nextStep === null || job.nextStep.kind === "ride");
  const works = shop.can("job.work");
  const done = newest?.good && job.nextStep === null && inWork;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Test ride"
        sub={
          <>
            <Link href={here} className="underline underline-offset-4">
              Job {job.number}
            </Link>
            , {job.bike.modelCard.make} {job.bike.modelCard.model}
          </>
        }
        actions={
          works &&
          (done ? (
            <LinkButton tone="main" href={`${here}/finish`}>
              Record as left
            </LinkButton>
          ) : (
            newest?.good &&
            inWork && (
              <LinkButton tone="main" href={`${here}/card`}>
                Back to the card
              </LinkButton>
            )
          ))
        }
      />
      {job.stopped && <Caution title="Stopped.">{job.stopped}. Do not ride it.</Caution>}
      {accepted && inWork && job.nextStep && job.nextStep.kind !== "ride" && (
        <Note title="One change is being made.">
          {accepted.name} {accepted.fromValue} to {accepted.toValue}. Next on the card: {job.nextStep.name}.{" "}
          <Link href={`${here}/card`} className="underline underline-offset-4">
            Open the card
          </Link>
        </Note>
      )}
      {!accepted && inWork && job.nextStep && job.nextStep.kind !== "ride" && (
        <Note title="Not to be ridden yet.">
          Step {job.nextStep.position}, {job.nextStep.name}, is still to do.{" "}
          <Link href={`${here}/card`} className="underline underline-offset-4">
            Open the card
          </Link>
        </Note>
      )}
      {choosing && (
        <Section title="What to change next: one thing">
          <Corrections
            job={job}
            corrections={newest.corrections}
            slug={slug}
            mayAccept={works && inWork}
            locale={shop.settings.locale}
          />
        </Section>
      )}
      {works && rideable && !done && !choosing && (
        <Section title="What you felt">
          <RideForm jobId={job.id} version={job.version} slug={slug} distance={distanceUnit(system)} />
        </Section>
      )}
      {works && rideable && choosing && (
        <details className="mb-7">
          <summary className="inline-flex min-h-8 items-center font-semibold text-brass underline underline-offset-4 pointer-coarse:min-h-12">
            It was ridden again without a change
          </summary>
          <RideForm jobId={job.id} version={job.version} slug={slug} distance={distanceUnit(system)} />
        </details>
      )}
      {works && rideable && !done && (
        <details className="mb-7">
          <summary className="inline-flex min-h-8 items-center font-semibold text-brass underline underline-offset-4 pointer-coarse:min-h-12">
            It was ridden with a lambda log
          </summary>
          <p className="my-2 max-w-prose text-[15px] text-soft">
            Read with what is fitted now. What is off target is ranked like a felt ride; what it teaches is
            kept for the model card.
          </p>
          <RideLog
            slug={slug}
            jobId={job.id}
            version={job.version}
            units={{
              altitudeUnit: shownUnit(system, "altitude").unit,
              temperatureUnit: shownUnit(system, "airTemperature").unit,
            }}
          />
        </details>
      )}
      {shop.can("bench.use") && (
        <p className="mb-4 flex flex-wrap gap-x-5 print:hidden">
          <Link href={`/s/${slug}/bench/observing`} className={LINK}>
            Reading the plug and the engine
          </Link>
          {shop.can("photo.read") && (
            <Link href={`/s/${slug}/bikes/${job.bikeId}/pairs?job=${job.id}`} className={LINK}>
              Photos in pairs
            </Link>
          )}
          <Link href={`/s/${slug}/bikes/${job.bikeId}/effects?job=${job.id}`} className={LINK}>
            Before and after
          </Link>
        </p>
      )}
      <RideList rides={job.rides} settings={shop.settings} />
      <Recalled
        recall={recall}
        slug={slug}
        locale={shop.settings.locale}
        zone={shop.settings.zone}
        here={`${here}/ride`}
      />
    </>
  );
}
