import { notFound } from "next/navigation";
import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { getPhoto, type PhotoSubject } from "@/lib/data/photos/list";
import { PHOTO } from "@/lib/domain/photos/limits";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { caption, putBack, remove } from "../../_photos/actions";

const TITLE = {
  part: "a part",
  bike: "a bike",
  step: "a step",
  finding: "a finding",
  damage: "a mark of an arrival",
  pairBefore: "a pair, before",
  pairAfter: "a pair, after",
} as const;

/** Where what a photo shows is found. */
function home(slug: string, { noun, id, job, position, bikeId, arrivalId }: PhotoSubject): string {
  if (arrivalId !== null) return `/s/${slug}/arrivals/${arrivalId}`;
  if (bikeId !== null) return `/s/${slug}/bikes/${bikeId}/pairs`;
  if (noun === "part") return `/s/${slug}/stock/${id}`;
  if (noun === "bike") return `/s/${slug}/bikes/${id}`;
  return `/s/${slug}/jobs/${job?.id ?? ""}${position === null ? "" : `/card?step=${position}`}`;
}

export default async function PhotoPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("photo.read", slug);
  const photo = await getPhoto(shop, pathId(id));
  if (!photo) notFound();
  const { subject, removedAt } = photo;
  const { locale, zone } = shop.settings;
  const version = { id: String(photo.id), version: String(photo.version) };
  const mayWrite = shop.can("photo.write");
  const large = `/api/s/${slug}/photos/${photo.id}`;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Photo of ${TITLE[subject.noun]}`}
        sub={
          <Link href={home(slug, subject)} className="text-brass underline underline-offset-4">
            {[subject.job && `Job ${subject.job.number}`, subject.name].filter(Boolean).join(", ")}
          </Link>
        }
      />
      {removedAt ? (
        <Note title="Removed.">It can be put back for {PHOTO.keptDays} days, then it is erased.</Note>
      ) : (
        <a href={large} className="block w-fit max-w-full">
          {/* biome-ignore lint/performance/noImgElement: behind a session, so no shared optimiser may fetch and keep it */}
          <img
            src={large}
            alt={photo.caption || `${subject.name}, as photographed`}
            width={photo.width}
            height={photo.height}
            className="h-auto max-h-[75vh] w-auto max-w-full rounded-[3px] border border-hair bg-sheet"
          />
        </a>
      )}
      <p className="my-3 text-soft">
        <Instant at={photo.at.toISOString()} locale={locale} zone={zone} />
        {photo.by && `, ${photo.by}`}
      </p>
      {mayWrite && !removedAt && (
        <Form action={caption} shop={slug} hidden={version} label="Caption" className="max-w-xl">
          <TextField
            name="caption"
            label="Caption"
            initial={photo.caption}
            maxLength={PHOTO.captionLength}
            hint="What to look at: it is read out in place of the picture."
          />
          <SubmitButton tone="second">Keep the caption</SubmitButton>
        </Form>
      )}
      {mayWrite && (
        <Form
          action={removedAt ? putBack : remove}
          undo={putBack}
          shop={slug}
          hidden={version}
          label={removedAt ? "Put it back" : "Remove"}
          className="mt-5"
        >
          <SubmitButton tone={removedAt ? "main" : "danger"}>
            {removedAt ? "Put it back" : "Remove the photo"}
          </SubmitButton>
        </Form>
      )}
    </>
  );
}
