import { Form } from "@/app/_ui/Form";
import { keptAs } from "@/app/_ui/offline/keptAs";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { start, stop } from "../../actions";
import { GoOn, TakeBreak } from "../../OwnBreak";
import { RunningClock } from "./RunningClock";
import type { CardHead } from "./shown";

interface CardTimeProps {
  card: CardHead;
  stepId: number | undefined;
  slug: string;
  now: number;
}

/** The person's time on this card: running, running elsewhere, on a break, or not. */
export function CardTime({ card, stepId, slug, now }: CardTimeProps) {
  const { running, onBreak } = card;
  const here = running?.jobId === card.id;
  const onStep = here && (stepId === undefined || running.stepId === stepId);
  const hidden = {
    jobId: String(card.id),
    ...(stepId === undefined ? {} : { stepId: String(stepId) }),
    ...keptAs("start", card.id, "Your time started"),
  };
  if (onBreak && onBreak.jobId === card.id && !running) return <GoOn slug={slug} of={onBreak} />;
  return (
    <div className="flex min-w-0 flex-wrap items-center gap-3">
      {here && (
        <RunningClock
          key={`${running.startedAt.getTime()}-${now}`}
          untilNowMs={card.ownMs + Math.max(0, now - running.startedAt.getTime())}
        />
      )}
      {here && <TakeBreak slug={slug} entryId={running.id} />}
      {here && onStep ? (
        <Form
          action={stop}
          shop={slug}
          hidden={{ entryId: String(running.id), ...keptAs("stop", card.id, "Your time stopped") }}
          label="Your time"
        >
          <SubmitButton tone="second">Stop</SubmitButton>
        </Form>
      ) : (
        <Form action={start} shop={slug} hidden={hidden} label="Your time">
          <SubmitButton tone="second">
            {here ? "Switch to this step" : running ? `Switch from job ${running.job.number}` : "Start time"}
          </SubmitButton>
        </Form>
      )}
    </div>
  );
}
