import { notFound } from "next/navigation";
import { minutesText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { tryPackage } from "@/lib/data/quotes/tryPackage";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { PriceSection } from "../../../quotes/[id]/PriceSection";
import { planShown } from "../../../quotes/[id]/shown/plan";
import { priceShown } from "../../../quotes/[id]/shown/price";
import { Warnings } from "../../../quotes/[id]/Warnings";
import { WorkPlanSection } from "../../../quotes/[id]/WorkPlanSection";
import { Problems } from "../Problems";
import { TryForm } from "./TryForm";

interface Props {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}

/** A package tried on a model card: rules, plan and price as a new quote would have them. Nothing is kept. */
export default async function TryPackage({ params, searchParams }: Props) {
  const [{ shop: slug, id }, query] = await Promise.all([params, searchParams]);
  const shop = await open("package.write", slug);
  const ticks = query.asked === undefined ? null : [query.tick ?? []].flat().slice(0, 60);
  const trial = await tryPackage(shop, {
    id: pathId(id),
    revision: askedId(query.revision),
    cardId: askedId(query.card),
    ticks,
  });
  if (!trial) notFound();
  const { shown } = trial.package;
  const { view } = trial;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Try ${trial.package.name}`}
        sub={trial.card ? `on ${trial.card.label}, revision ${shown?.number}` : `revision ${shown?.number}`}
        actions={
          <>
            {shown?.state === "draft" && (
              <LinkButton href={`/s/${slug}/packages/${id}/edit`}>Edit the draft</LinkButton>
            )}
            <LinkButton href={`/s/${slug}/packages/${id}`}>To the package</LinkButton>
          </>
        }
      />
      {shown?.state === "draft" && trial.problems.length > 0 && (
        <div className="mb-5">
          <Problems problems={trial.problems} lacks={[]} edit={`/s/${slug}/packages/${id}/edit`} />
        </div>
      )}
      <div className="grid gap-x-7 rail:grid-cols-[minmax(0,23rem)_minmax(0,1fr)]">
        <TryForm slug={slug} trial={trial} />
        <div className="min-w-0">
          {view && (
            <>
              <p className="mb-4">
                {minutesText(view.plan.minutes, "min", "h")} of work, all opened and closed as seldom as can
                be.
                {view.plan.exact
                  ? " No order is shorter."
                  : ` No shorter order was found; at most ${view.plan.gapMinutes} min less is possible.`}
              </p>
              <PriceSection
                price={priceShown({
                  ...view,
                  works: [],
                  savedAgainst: "visits",
                  locale: shop.settings.locale,
                })}
              />
              <Warnings warnings={view.warnings} />
            </>
          )}
          {trial.card && !view && (
            <p className="text-soft">
              The draft has faults that leave nothing to compute: put them right first.
            </p>
          )}
        </div>
      </div>
      {view && <WorkPlanSection plan={planShown(view.plan)} />}
    </>
  );
}
