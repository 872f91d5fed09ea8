import { notFound } from "next/navigation";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { differentOn } from "@/lib/data/jobs/different";
import { getJob } from "@/lib/data/jobs/get";
import type { Different } from "@/lib/domain/packages/different";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { keepIt } from "./actions";

/** What was different on a finished job from its packages: what is ticked goes into a proposed revision, with its evidence. */
export default async function DifferentOnJob({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("package.write", slug);
  const job = await getJob(shop, pathId(id));
  if (!job) notFound();
  const packages = await differentOn(shop.read, job.id);
  return (
    <>
      <PageHead
        of={shop.name}
        title="What was different"
        sub={`Job ${job.number} · ${job.title}`}
        actions={<LinkButton href={`/s/${slug}/jobs/${id}`}>To the job</LinkButton>}
      />
      {packages.length === 0 ? (
        <p className="max-w-prose">
          Nothing to keep: the job is not finished, or it went as its packages say. Minutes count where time
          was taken on the step, from three minutes and 15 % off.
        </p>
      ) : (
        packages.map(({ packageId, name, number, differences }) => (
          <Section key={packageId} title={`${name}, revision ${number}`} className="max-w-[60rem]">
            <Form
              action={keepIt}
              shop={slug}
              hidden={{ jobId: id, packageId: String(packageId) }}
              label={`Keep in ${name}`}
            >
              {differences.map((one) => (
                <CheckField
                  key={one.id}
                  name="kept[]"
                  value={one.id}
                  label={labelOf(one)}
                  detail={one.evidence}
                  figure={figureOf(one)}
                  ruled
                />
              ))}
              <SubmitButton size="act" className="mt-4 max-sm:w-full">
                Put what is ticked into a draft
              </SubmitButton>
            </Form>
          </Section>
        ))
      )}
    </>
  );
}

const SAID = { open: ", to open", operation: "", close: ", to close" } as const;

function labelOf(one: Different): string {
  if (one.what === "minutes") return `${one.item}${SAID[one.kind]}: minutes`;
  return one.what === "part" ? `${one.item}: ${one.code}` : `${one.item}: ${one.side} limit`;
}

function figureOf(one: Different): string {
  const shown = (value: number) => (one.what === "part" ? value / 1000 : value);
  return `${shown(one.was)} → ${shown(one.now)}`;
}
