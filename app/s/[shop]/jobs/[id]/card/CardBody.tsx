"use client";
import { lazy, type ReactNode, Suspense } from "react";
import { Caution } from "@/app/_ui/Caution";
import { Empty } from "@/app/_ui/Empty";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { KeepCard } from "@/app/_ui/offline/KeepCard";
import { PhotoTake } from "@/app/_ui/PhotoTake";
import { useScreen } from "@/app/_ui/Screen";
import { Thumbs } from "@/app/_ui/Thumbs";
import { OnJobNow } from "../OnJobNow";
import { Beside, Progress } from "./Along";
import { CardTime } from "./CardTime";
import { GiveAway, SayWait, WaitSaid } from "./CardWait";
import { PassAndParts } from "./PassAndParts";
import { SkipForm } from "./SkipForm";
import { StepHeading } from "./StepHeading";
import { StepNotes } from "./StepNotes";
import { StepWork } from "./StepWork";
import type { CardScreen } from "./shown";
import { withDates } from "./withDates";

/** A card is mostly looked at where it is to be worked on. */
const PassedStep = lazy(async () => ({ default: (await import("./PassedStep")).PassedStep }));
/** Few readings lie outside their limits. */
const Overrides = lazy(async () => ({ default: (await import("./Overrides")).Overrides }));

interface Props {
  slug: string;
  settings: { readonly locale: string; readonly zone: string };
  /** The server's clock when it drew the page, in milliseconds. */
  now: number;
  may: {
    readonly override: boolean;
    readonly use: boolean;
    readonly photo: boolean;
    readonly takePhoto: boolean;
  };
  /** Drawn by the server: needles, how things are measured, the balance, more work. */
  drawn: { readonly needle: ReactNode; readonly measuring: ReactNode; readonly more: ReactNode };
}

/** One step of a card with all that is done on it, and the way along the card. */
export function CardBody({ slug, settings, now, may, drawn }: Props) {
  const screen = withDates(useScreen((view: CardScreen) => view));
  const { card, step, mayWork } = screen;
  const here = `/s/${slug}/jobs/${card.id}`;
  const todo = step?.state === "todo";
  const done = card.steps.filter((one) => one.state !== "todo").map((one) => one.id);
  return (
    <>
      {mayWork && <KeepCard jobId={card.id} mark={screen.kept} done={done} />}
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
        {mayWork && <CardTime card={card} stepId={todo ? step.id : undefined} slug={slug} now={now} />}
      </header>
      {!step ? (
        <Empty title="This job has no steps." action={<LinkButton href={here}>Back to the job</LinkButton>} />
      ) : (
        <>
          <Progress card={card} at={step.position} />
          <OnJobNow on={card.others} also shop={{ settings }} />
          <WaitSaid card={card} slug={slug} mayWork={mayWork} locale={settings.locale} />
          {card.stopped && <Caution title="Stopped.">{card.stopped}.</Caution>}
          <StepHeading
            jobId={card.id}
            stepId={step.id}
            name={step.name}
            at={`Step ${card.steps.findIndex((one) => one.id === step.id) + 1} of ${card.steps.length}${
              step.holdPoints.length > 0 ? " · hold point" : ""
            }${step.kind === "ride" ? " · test ride" : ""}`}
          />
          {/* Each step has forms of its own. */}
          <div key={`${step.id} ${step.state}`}>
            <StepWork step={step} todo={todo} locale={settings.locale} needle={drawn.needle} />
            {drawn.measuring}
            {todo && mayWork ? (
              <ToDo screen={screen} step={step} slug={slug} settings={settings} may={may} />
            ) : (
              <>
                <Suspense>
                  <PassedStep step={step} card={card} slug={slug} mayWork={mayWork} settings={settings} />
                </Suspense>
                <StepNotes step={step} jobId={card.id} slug={slug} mayWrite={mayWork} settings={settings} />
              </>
            )}
          </div>
          {screen.notHere && (
            <p className="mt-4">
              The bike has not arrived yet.{" "}
              <Link className="text-brass underline" href={here}>
                Record the arrival
              </Link>{" "}
              first. It is {screen.notHere}.
            </p>
          )}
          {screen.byWord && <Caution title={screen.byWord.title}>{screen.byWord.text}</Caution>}
          {mayWork && drawn.more}
          {may.photo && (
            <div className="my-4">
              <Thumbs
                photos={screen.photos}
                of={step.name}
                row
                small={(id) => `/api/s/${slug}/photos/${id}/small`}
                large={(id) => `/s/${slug}/photos/${id}`}
              />
              {may.takePhoto && (
                <PhotoTake
                  key={step.id}
                  shop={slug}
                  noun="step"
                  id={step.id}
                  of={`of ${step.name}`}
                  size="act"
                />
              )}
            </div>
          )}
          <Beside card={card} at={step.position} here={here} />
        </>
      )}
    </>
  );
}

interface ToDoProps extends Pick<Props, "slug" | "settings" | "may"> {
  screen: CardScreen;
  step: NonNullable<CardScreen["step"]>;
}

/** The step that is next, to be passed, skipped, noted at or left to another. */
function ToDo({ screen, step, slug, settings, may }: ToDoProps) {
  const { card } = screen;
  const outside = step.holdPoints.filter(
    (hold) => !hold.passed && !hold.overrideReason && hold.readings[0]?.inside === false,
  );
  return (
    <>
      {may.override && outside.length > 0 && (
        <Suspense>
          <Overrides holds={outside} version={step.version} slug={slug} />
        </Suspense>
      )}
      <PassAndParts step={step} card={card} slug={slug} locale={settings.locale} mayUse={may.use} />
      {may.use && (
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
      <StepNotes step={step} jobId={card.id} slug={slug} mayWrite settings={settings} />
      {!card.wait && <SayWait card={card} slug={slug} />}
      <GiveAway card={card} slug={slug} others={screen.others} />
    </>
  );
}
