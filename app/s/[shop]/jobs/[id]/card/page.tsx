import { notFound } from "next/navigation";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Screen } from "@/app/_ui/Screen";
import { StayAwake } from "@/app/_ui/StayAwake";
import { BALANCE_READING } from "@/lib/data/jobs/balances";
import { getCard } from "@/lib/data/jobs/card";
import { proceduresOfStep } from "@/lib/domain/procedures/procedures";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { shown } from "@/lib/gate/shownLately";
import { CardBalance } from "../../../_balance/CardBalance";
import { ProcedureFolds } from "../../../_procedures/ProcedureFolds";
import { AddWork } from "../AddWork";
import { CardBody } from "./CardBody";
import { StepNeedle } from "./StepNeedle";
import { cardScreen } from "./shown";

export default async function CardPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ step?: string }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("job.read", slug);
  const card = await getCard(shop, pathId(id));
  if (!card) notFound();
  const screen = await cardScreen(shop, card, askedId((await searchParams).step) ?? null);
  const { step, mayWork } = screen;
  const todo = step?.state === "todo";
  const here = `/s/${slug}/jobs/${card.id}`;
  const { locale, zone } = shop.settings;
  return (
    <Screen {...shown(shop.shopId, screen)}>
      <div data-hands-busy="" className="mx-auto max-w-xl">
        <StayAwake />
        <title>{`Card of job ${card.number} · ${shop.name}`}</title>
        <CardBody
          slug={slug}
          settings={{ locale, zone }}
          now={shop.now.getTime()}
          may={{
            override: shop.can("job.override"),
            use: shop.can("stock.use"),
            photo: shop.can("photo.read"),
            takePhoto: shop.can("photo.write"),
          }}
          drawn={{
            needle: step && (
              <StepNeedle
                needles={step.needles}
                home={`/s/${slug}`}
                job={card}
                mayMeasure={mayWork && shop.can("sheet.write")}
                locale={locale}
              />
            ),
            measuring: step && (
              <>
                <ProcedureFolds procedures={proceduresOfStep(step)} />
                {todo && mayWork && (
                  <CardBalance
                    shop={shop}
                    bikeId={card.bikeId}
                    jobId={card.id}
                    carburettors={card.carburettors}
                    asked={step.holdPoints.some((hold) => hold.measures === BALANCE_READING)}
                  />
                )}
              </>
            ),
            more: card.agreement && (
              <div className="mt-4">
                <AddWork shop={shop} jobId={card.id} />
              </div>
            ),
          }}
        />
        {step && (
          <p className="flex flex-wrap gap-x-6 print:hidden">
            <LinkButton tone="quiet" href={`${here}/print`}>
              Card on paper
            </LinkButton>
            <LinkButton tone="quiet" href={`/api${here}/card`} download>
              Card as PDF
            </LinkButton>
          </p>
        )}
      </div>
    </Screen>
  );
}
