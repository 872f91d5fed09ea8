import { notFound } from "next/navigation";
import { Caution } from "@/app/_ui/Caution";
import { Empty } from "@/app/_ui/Empty";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { KeepCard } from "@/app/_ui/offline/KeepCard";
import { StayAwake } from "@/app/_ui/StayAwake";
import { BALANCE_READING } from "@/lib/data/jobs/balances";
import { getCard, stepToShow } from "@/lib/data/jobs/card";
import { othersWhoWork } from "@/lib/data/jobs/handOvers";
import { proceduresOfStep } from "@/lib/domain/procedures/procedures";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { jobWord } from "@/lib/schemas/jobWords";
import { CardBalance } from "../../../_balance/CardBalance";
import { Photos } from "../../../_photos/Photos";
import { ProcedureFolds } from "../../../_procedures/ProcedureFolds";
import { AddWork } from "../AddWork";
import { OnJobNow } from "../OnJobNow";
import { Beside, Progress } from "./Along";
import { CardParts } from "./CardParts";
import { CardTime } from "./CardTime";
import { GiveAway, SayWait, WaitSaid } from "./CardWait";
import { markOf, mayWorkOn, overOn } from "./cardMark";
import { OnWord } from "./OnWord";
import { Overrides } from "./Overrides";
import { PassedStep } from "./PassedStep";
import { PassForm } from "./PassForm";
import { SkipForm } from "./SkipForm";
import { StepHeading } from "./StepHeading";
import { StepNotes } from "./StepNotes";
import { StepWork } from "./StepWork";

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
  const step = stepToShow(card, askedId((await searchParams).step) ?? null);
  const here = `/s/${slug}/jobs/${card.id}`;
  const { works, mayWork } = mayWorkOn(card, shop.can("job.work"));
  const todo = step?.state === "todo";
  const others = mayWork && todo ? await othersWhoWork(shop) : [];
  return (
    <div data-hands-busy="" className="mx-auto max-w-xl">
      <StayAwake />
      {mayWork && <KeepCard jobId={card.id} mark={markOf(card)} done={overOn(card)} />}
      <title>{`Card of job ${card.number} · ${shop.name}`}</title>
      <header className="-mx-4 flex flex-wrap items-center justify-between gap-x-3 gap-y-1 border-ink border-b-2 px-4 pb-2 rail:mx-0 rail:px-0">
        <h1 className="min-w-0 font-bold text-[18px]">
          <Link
            href={here}
            className="inline-flex min-h-8 items-center no-underline hover:underline pointer-coarse:min-h-12"
          >
            Job {card.number}
          </Link>{" "}
          <span className="font-normal text-soft">{card.bike.model}</span>
        </h1>
        {mayWork && (
          <CardTime card={card} stepId={todo ? step.id : undefined} slug={slug} now={shop.now.getTime()} />
        )}
      </header>
      {!step ? (
        <Empty title="This job has no steps." action={<LinkButton href={here}>Back to the job</LinkButton>} />
      ) : (
        <>
          <Progress card={card} at={step.position} />
          <OnJobNow on={card.others} also shop={shop} />
          <WaitSaid card={card} slug={slug} mayWork={mayWork} locale={shop.settings.locale} />
          {card.stopped && <Caution title="Stopped.">{card.stopped}.</Caution>}
          <StepHeading
            jobId={card.id}
            stepId={step.id}
            name={step.name}
            at={`Step ${card.steps.indexOf(step) + 1} of ${card.steps.length}${
              step.holdPoints.length > 0 ? " · hold point" : ""
            }${step.kind === "ride" ? " · test ride" : ""}`}
          />
          <StepWork
            step={step}
            slug={slug}
            todo={todo}
            job={card}
            mayMeasure={mayWork && shop.can("sheet.write")}
            locale={shop.settings.locale}
          />
          <ProcedureFolds procedures={proceduresOfStep(step)} />
          {todo && mayWork && (
            <CardBalance
              shop={shop}
              bikeId={card.bikeId}
              jobId={card.id}
              stepId={step.id}
              carburettors={card.carburettors}
              asked={step.holdPoints.some((hold) => hold.measures === BALANCE_READING)}
            />
          )}
          {todo && mayWork ? (
            <>
              {shop.can("job.override") && <Overrides step={step} slug={slug} />}
              <PassForm
                step={step}
                parts={step.parts}
                jobId={card.id}
                slug={slug}
                locale={shop.settings.locale}
                carburettors={card.carburettors}
              />
              <CardParts
                parts={[...step.parts, ...card.looseParts]}
                stepId={step.id}
                jobId={card.id}
                slug={slug}
                mayUse={shop.can("stock.use")}
                today={card.today}
                locale={shop.settings.locale}
              />
              {shop.can("stock.use") && (
                <p className="mt-1">
                  <Link
                    href={`/s/${slug}/stock/scan`}
                    className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
                  >
                    Scan a part
                  </Link>
                </p>
              )}
              <SkipForm step={step} jobId={card.id} slug={slug} />
              <StepNotes step={step} jobId={card.id} slug={slug} mayWrite settings={shop.settings} />
              {!card.wait && <SayWait card={card} slug={slug} />}
              <GiveAway card={card} slug={slug} others={others} />
            </>
          ) : (
            <>
              <PassedStep step={step} card={card} slug={slug} mayWork={mayWork} settings={shop.settings} />
              <StepNotes
                step={step}
                jobId={card.id}
                slug={slug}
                mayWrite={mayWork}
                settings={shop.settings}
              />
            </>
          )}
          {!works && todo && card.arrivedAt === null && (
            <p className="mt-4">
              The bike has not arrived yet.{" "}
              <Link className="text-brass underline" href={here}>
                Record the arrival
              </Link>{" "}
              first. It is {jobWord(card).word}.
            </p>
          )}
          {mayWork && card.agreement && (
            <div className="mt-4">
              <OnWord shop={shop} jobId={card.id} kind={card.agreement.kind} />
              <AddWork shop={shop} jobId={card.id} />
            </div>
          )}
          <Photos shop={shop} noun="step" id={step.id} of={step.name} onCard />
          <Beside card={card} at={step.position} here={here} />
          <p className="flex flex-wrap gap-x-6 print:hidden">
            <LinkButton tone="quiet" href={`${here}/print`}>
              Card on paper
            </LinkButton>
            <LinkButton tone="quiet" href={`/api${here}/card`} download>
              Card as PDF
            </LinkButton>
          </p>
        </>
      )}
    </div>
  );
}
