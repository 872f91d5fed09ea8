import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { getBike } from "@/lib/data/bikes/bikes";
import { listPairs } from "@/lib/data/photos/pairs";
import { PAIR_WORDS, PHOTO_LIMITS } from "@/lib/domain/procedures/observing";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { begin } from "../../../_pairs/actions";
import { Pairs } from "../../../_pairs/Pairs";
import { choices, THROTTLE_WORDS } from "../../../jobs/[id]/rideWords";
import { OfBike } from "../OfBike";

/** A bike's photos in pairs, and the way to begin one. */
export default async function PairsPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ job?: string; after?: string }>;
}) {
  const { shop: slug, id } = await params;
  const asked = await searchParams;
  const shop = await open("photo.read", slug);
  const bike = await getBike(shop, pathId(id));
  if (!bike) notFound();
  const { rows, next } = await listPairs(shop, {
    bikeId: bike.id,
    after: askedId(asked.after) ?? undefined,
  });
  const jobId = bike.jobs.find((job) => job.id === askedId(asked.job))?.id;
  const home = `/s/${slug}/bikes/${bike.id}`;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Photos in pairs"
        sub={<OfBike home={home} bike={bike} />}
        actions={
          shop.can("bench.use") && (
            <LinkButton href={`/s/${slug}/bench/observing/pairs?card=${bike.modelCard.id}`}>
              All of this model
            </LinkButton>
          )
        }
      />
      <Note title="No verdict.">{PHOTO_LIMITS}</Note>
      {shop.can("photo.write") && (
        <Section title="A new pair">
          <Form
            action={begin}
            shop={slug}
            hidden={{ bikeId: String(bike.id), ...(jobId === undefined ? {} : { jobId: String(jobId) }) }}
            label="A new pair"
            className="max-w-[640px]"
          >
            <div className="grid grid-cols-2 gap-x-3">
              <SelectField name="subject" label="It shows" initial="plug" options={choices(PAIR_WORDS)} />
              <SelectField
                name="throttle"
                label="At throttle"
                initial="quarter"
                options={choices(THROTTLE_WORDS)}
              />
            </div>
            <TextArea
              name="note"
              label="What is changed between the two"
              rows={2}
              maxLength={500}
              hint="And how the engine was brought there: how long, which gear, which fuel."
            />
            <SubmitButton tone="second">Begin a pair</SubmitButton>
          </Form>
        </Section>
      )}
      <Section title="Pairs">
        {rows.length === 0 && <Empty title="None yet." text="Begin one before anything is changed." />}
        <Pairs shop={shop} pairs={rows} />
      </Section>
      {next && <LinkButton href={`${home}/pairs?after=${next}`}>Older ones</LinkButton>}
    </>
  );
}
