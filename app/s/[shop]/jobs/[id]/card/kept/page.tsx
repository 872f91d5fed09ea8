import { notFound } from "next/navigation";
import type { ReactNode } from "react";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { StayAwake } from "@/app/_ui/StayAwake";
import { getCard } from "@/lib/data/jobs/card";
import { photosOf } from "@/lib/data/photos/list";
import { KEPT } from "@/lib/domain/offline/bounds";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { mayWorkOn } from "../cardMark";
import { KeptCard } from "./KeptCard";
import { KeptStep } from "./KeptStep";

/**
 * A card with all its open steps in one page, for a device to keep: it shows the step that is next once what waits on the device
 * is counted in. With a connection the live card takes its place.
 */
export default async function KeptCardPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("job.read", slug);
  const card = await getCard(shop, pathId(id));
  if (!card) notFound();
  const { mayWork } = mayWorkOn(card, shop.can("job.work"));
  const todo = card.steps.filter((step) => step.state === "todo").slice(0, KEPT.mostSteps);
  const photos = shop.can("photo.read")
    ? await photosOf(
        shop,
        "step",
        todo.map((step) => step.id),
      )
    : new Map();
  const bodies: Record<number, ReactNode> = {};
  for (const step of todo)
    bodies[step.id] = (
      <KeptStep key={step.id} shop={shop} card={card} step={step} photos={photos.get(step.id) ?? []} />
    );
  return (
    <div
      data-hands-busy=""
      data-card-of={`${shop.shopId}:${shop.by.personId}`}
      data-job={card.number}
      data-bike={card.bike.name}
      className="mx-auto max-w-xl"
    >
      <StayAwake />
      <title>{`Card of job ${card.number} · ${shop.name}`}</title>
      {mayWork ? (
        <KeptCard
          slug={slug}
          job={{ id: card.id, number: card.number, bike: card.bike.model }}
          steps={card.steps.map((step) => ({
            id: step.id,
            position: step.position,
            name: step.name,
            minutes: step.minutes,
            todo: step.state === "todo",
          }))}
          running={card.running && { jobId: card.running.jobId, startedAt: card.running.startedAt.getTime() }}
          ownMs={card.ownMs}
          keptAt={shop.now.getTime()}
          locale={shop.settings.locale}
          zone={shop.settings.zone}
          bodies={bodies}
        />
      ) : (
        <Empty
          title="Nothing can be done on this card now."
          action={<LinkButton href={`/s/${slug}/jobs/${card.id}/card`}>Look at it</LinkButton>}
        />
      )}
    </div>
  );
}
