import { setImmediate } from "node:timers/promises";
import { Note } from "@/app/_ui/Note";
import { PhotoTake } from "@/app/_ui/PhotoTake";
import { BALANCE_READING } from "@/lib/data/jobs/balances";
import type { CardStep, CardView } from "@/lib/data/jobs/card";
import type { ListedPhoto } from "@/lib/data/photos/list";
import type { OpenShop } from "@/lib/gate/open";
import { ShopThumbs } from "../../../../_photos/ShopThumbs";
import { PassAndParts } from "../PassAndParts";
import { SkipForm } from "../SkipForm";
import { StepNeedle } from "../StepNeedle";
import { StepNotes } from "../StepNotes";
import { StepWork } from "../StepWork";

interface KeptStepProps {
  shop: OpenShop;
  card: CardView;
  step: CardStep;
  photos: readonly ListedPhoto[];
}

/** One open step of a kept card: what the live one shows, but for what needs a connection. */
export async function KeptStep({ shop, card, step, photos }: KeptStepProps) {
  // A card of many steps is drawn in pieces, so that other requests are answered in between.
  await setImmediate();
  const { slug, settings } = shop;
  return (
    <>
      <StepWork
        step={step}
        todo
        locale={settings.locale}
        needle={
          <StepNeedle
            needles={step.needles}
            home={`/s/${slug}`}
            job={card}
            mayMeasure={false}
            locale={settings.locale}
          />
        }
      />
      {step.holdPoints.some((hold) => hold.measures === BALANCE_READING) && (
        <Note title="Balancing needs a connection.">
          Without one, enter the difference that you read between the carburettors.
        </Note>
      )}
      {step.kind === "ride" ? (
        <Note title="A ride is recorded with a connection.">
          Ride, note here what you felt, and record it on the live card once there is one.
        </Note>
      ) : (
        <>
          <PassAndParts
            step={step}
            card={card}
            slug={slug}
            locale={settings.locale}
            mayUse={shop.can("stock.use")}
            away
          />
          <SkipForm step={step} jobId={card.id} slug={slug} />
        </>
      )}
      <StepNotes step={step} jobId={card.id} slug={slug} mayWrite settings={settings} />
      <div className="my-4">
        <ShopThumbs slug={slug} photos={photos} of={step.name} row />
        {shop.can("photo.write") && (
          <PhotoTake shop={slug} noun="step" id={step.id} of={`of ${step.name}`} size="act" />
        )}
      </div>
    </>
  );
}
