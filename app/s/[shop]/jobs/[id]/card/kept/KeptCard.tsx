"use client";
import { type ReactNode, useEffect, useState, useSyncExternalStore } from "react";
import { Button } from "@/app/_ui/Button";
import { Caution } from "@/app/_ui/Caution";
import { Instant } from "@/app/_ui/Instant";
import { NOTHING_KEPT, useDevice } from "@/app/_ui/offline/deviceContext";
import { StepBar } from "@/app/_ui/StepBar";
import { cardNow, type RunningSeen } from "@/lib/domain/offline/cardNow";
import { StepHeading } from "../StepHeading";
import { KeptTime } from "./KeptTime";
import { StepWaiting } from "./StepWaiting";
import { useWayBack } from "./useWayBack";

interface KeptCardProps {
  slug: string;
  job: { readonly id: number; readonly number: string; readonly bike: string };
  steps: readonly {
    readonly id: number;
    readonly position: number;
    readonly name: string;
    readonly minutes: number;
    readonly todo: boolean;
  }[];
  running: RunningSeen | null;
  ownMs: number;
  keptAt: number;
  locale: string;
  zone: string;
  /** Each open step as the server drew it. */
  bodies: Readonly<Record<number, ReactNode>>;
}

const never = () => () => {};

/** A card without a connection: the next step comes up as one is passed, and what waits to be sent is seen. */
export function KeptCard({ slug, job, steps, running, ownMs, keptAt, locale, zone, bodies }: KeptCardProps) {
  const device = useDevice();
  const state = useSyncExternalStore(
    device?.subscribe ?? never,
    device?.state ?? (() => NOTHING_KEPT),
    () => NOTHING_KEPT,
  );
  const [asked, setAsked] = useState<number | null>(null);
  const live = `/s/${slug}/jobs/${job.id}/card`;
  const back = useWayBack(live, state);
  useEffect(() => {
    const position = Number(new URLSearchParams(location.search).get("step"));
    setAsked(steps.find((step) => step.position === position)?.id ?? null);
  }, [steps]);
  const over = new Set(device?.overOf(job.id) ?? []);
  const seen = steps.map((step) => ({ ...step, todo: step.todo && !over.has(step.id) }));
  // The device counts in its own clock's time.
  const ran = running && { ...running, startedAt: running.startedAt - state.offMs };
  const now = cardNow(job.id, seen, ran, state.acts);
  const open = seen.filter((step) => step.todo && !now.waiting.has(step.id));
  const shown = open.find((step) => step.id === asked) ?? open.find((step) => step.id === now.next);
  const at = shown ? open.indexOf(shown) : -1;
  return (
    <>
      <header className="-mx-4 flex flex-wrap items-center justify-between gap-x-3 gap-y-1 border-ink border-b-2 px-4 pb-2 rail:mx-0 rail:px-0">
        <h1 className="min-w-0 font-bold text-[18px]">
          Job {job.number} <span className="font-normal text-soft">{job.bike}</span>
        </h1>
        {state.ready && (
          <KeptTime slug={slug} jobId={job.id} stepId={shown?.id} since={now.runningSince} ownMs={ownMs} />
        )}
      </header>
      <p className="text-[14px] text-soft">
        This is the card as kept on this device,{" "}
        <Instant at={new Date(keptAt).toISOString()} locale={locale} zone={zone} />.{" "}
        {back.open && (
          <a className="text-brass underline" href={live}>
            To the live card
          </a>
        )}
      </p>
      {!state.ready ? (
        <p className="py-4" role="status">
          Looking up what waits on this device.
        </p>
      ) : (
        <>
          <StepBar
            label={`${steps.length - open.length} of ${steps.length} steps done`}
            steps={seen.map((step) => ({
              minutes: step.minutes,
              state:
                step.id === shown?.id ? "now" : step.todo && !now.waiting.has(step.id) ? "ahead" : "done",
            }))}
          />
          {now.stopped && (
            <Caution title="Stopped.">
              {now.stopped.said}: a reading lies outside its limits. It waits to be sent; measure again, or
              let an owner decide, once there is a connection.
            </Caution>
          )}
          {shown ? (
            <>
              <StepHeading
                jobId={job.id}
                stepId={shown.id}
                name={shown.name}
                at={`Step ${steps.findIndex((step) => step.id === shown.id) + 1} of ${steps.length}`}
              />
              <StepWaiting acts={state.acts.filter((act) => act.stepId === shown.id)} device={device} />
              {/* Each step has fields of its own. */}
              <div key={shown.id}>
                {bodies[shown.id] ?? <p className="py-4">This step is on the live card only.</p>}
              </div>
              <nav aria-label="Steps" className="mt-4 flex justify-between gap-4 border-hair border-t pt-1">
                {open[at - 1] ? (
                  <Button tone="quiet" onClick={() => setAsked(open[at - 1]?.id ?? null)}>
                    Before: {open[at - 1]?.name}
                  </Button>
                ) : (
                  <span />
                )}
                {open[at + 1] && (
                  <Button tone="quiet" onClick={() => setAsked(open[at + 1]?.id ?? null)}>
                    After: {open[at + 1]?.name}
                  </Button>
                )}
              </nav>
            </>
          ) : (
            <p className="py-4">
              All steps are done. What is left, the handover say, needs a connection: what waits here is sent
              first.
            </p>
          )}
        </>
      )}
    </>
  );
}
