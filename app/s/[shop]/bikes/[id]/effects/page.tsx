import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { getBike } from "@/lib/data/bikes/bikes";
import { effectsOn } from "@/lib/data/jobs/effects";
import { EFFECT_KINDS, EFFECTS } from "@/lib/domain/procedures/effects";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { EffectForm } from "../../../_effects/EffectForm";
import { JobEffects } from "../../../_effects/JobEffects";
import { OfBike } from "../OfBike";

/** What work did on a bike: figures before and after each of its jobs. */
export default async function EffectsPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ kind?: string; job?: string }>;
}) {
  const { shop: slug, id } = await params;
  const asked = await searchParams;
  const shop = await open("bike.read", slug);
  const bike = await getBike(shop, pathId(id));
  if (!bike) notFound();
  const jobs = await effectsOn(shop, bike.id);
  const kind = EFFECT_KINDS.find((one) => one === asked.kind) ?? "noise";
  const jobId = bike.jobs.find((job) => job.id === askedId(asked.job))?.id;
  const home = `/s/${slug}/bikes/${bike.id}`;
  const to = (one: string) => `${home}/effects?kind=${one}${jobId === undefined ? "" : `&job=${jobId}`}`;
  return (
    <>
      <PageHead of={shop.name} title="Before and after" sub={<OfBike home={home} bike={bike} />} />
      {jobs.length === 0 && (
        <Empty
          title="Nothing is read yet."
          text="Read the same thing before the work and after it, under the same conditions."
        />
      )}
      {jobs.map((one) => (
        <Section
          key={one.jobId}
          title={
            <Link href={`/s/${slug}/jobs/${one.jobId}`} className="underline underline-offset-4">
              Job {one.number}, {one.title}
            </Link>
          }
        >
          <JobEffects shop={shop} of={one} />
        </Section>
      ))}
      {shop.can("intake.write") && bike.jobs.length > 0 && (
        <Section title="Read now">
          <nav aria-label="What is read" className="mb-3 flex flex-wrap gap-x-4">
            {EFFECT_KINDS.map((one) => (
              <Link
                key={one}
                href={to(one)}
                aria-current={one === kind ? "true" : undefined}
                className="inline-flex min-h-8 items-center text-brass underline underline-offset-4 aria-[current]:font-semibold aria-[current]:text-ink aria-[current]:no-underline pointer-coarse:min-h-12"
              >
                {EFFECTS[one].name.split(",")[0]}
              </Link>
            ))}
          </nav>
          <EffectForm slug={slug} bikeId={bike.id} kind={kind} jobs={bike.jobs} jobId={jobId} />
        </Section>
      )}
    </>
  );
}
