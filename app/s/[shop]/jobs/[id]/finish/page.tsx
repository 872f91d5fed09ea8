import { notFound } from "next/navigation";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { getJob } from "@/lib/data/jobs/get";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { FinishForm } from "./FinishForm";
import { LookOver } from "./LookOver";

export default async function FinishPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("job.work", slug);
  const job = await getJob(shop, pathId(id));
  if (!job) notFound();
  const here = `/s/${slug}/jobs/${job.id}`;
  const left = job.steps.find((step) => step.state === "todo");
  // Only work that changes a setting is ridden, and leaves a sheet.
  const rides = job.steps.some((step) => step.kind === "ride");
  const { units } = shop.settings;
  const km = job.bikeOdometerKm;
  const odometer = { unit: distanceUnit(units), value: km === null ? undefined : shownDistance(km, units) };
  const inWork = job.state === "inWork" || job.state === "ride";
  return (
    <>
      <PageHead
        of={shop.name}
        title={rides ? "Record as left" : "Finish the job"}
        sub={
          <>
            <Link href={here} className="underline underline-offset-4">
              Job {job.number}
            </Link>
            , {job.bike.name}
          </>
        }
      />
      {left && inWork && (
        <Note title="Something is still to do.">
          Step {left.position}, {left.name}.{" "}
          <Link href={`${here}/card`} className="underline underline-offset-4">
            Open the card
          </Link>
        </Note>
      )}
      {!inWork && <Note title="This job is not in work.">Its as-left sheet stays as it was recorded.</Note>}
      {inWork && !left && !rides && (
        <LookOver jobId={job.id} version={job.version} slug={slug} odometer={odometer} />
      )}
      {inWork && !left && rides && (
        <FinishForm
          jobId={job.id}
          version={job.version}
          slug={slug}
          values={job.sheets.fitted}
          measured={job.sheets.measured}
          odometer={odometer}
        />
      )}
    </>
  );
}
