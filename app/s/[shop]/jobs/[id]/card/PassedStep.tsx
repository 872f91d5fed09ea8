import { ActBar } from "@/app/_ui/ActBar";
import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { LinkButton } from "@/app/_ui/LinkButton";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { CardStep } from "@/lib/data/jobs/card";
import { unskip } from "../../actions";
import type { CardHead } from "./shown";
import { TakeBack } from "./TakeBack";

interface PassedStepProps {
  step: CardStep;
  card: CardHead;
  slug: string;
  mayWork: boolean;
  settings: { locale: string; zone: string };
}

const WORD = {
  todo: { shape: "circle", word: "to do" },
  done: { shape: "filled", word: "passed" },
  skipped: { shape: "dash", word: "skipped" },
} as const;

/** A step that nothing is done on now: who passed it, what was read, and the way on. */
export function PassedStep({ step, card, slug, mayWork, settings }: PassedStepProps) {
  const here = `/s/${slug}/jobs/${card.id}`;
  const look = WORD[step.state];
  const left = card.steps.some((one) => one.state === "todo");
  const newest = card.steps.filter((one) => one.state !== "todo").at(-1);
  const lastPassed = newest?.state === "done" && newest.kind !== "ride" ? newest.id : null;
  return (
    <>
      <p className="flex flex-wrap justify-between gap-x-4 border-hair border-b py-2.5">
        <State shape={look.shape}>{look.word}</State>
        {step.doneAt && (
          <span className="text-soft">
            {step.doneByName} <Instant at={step.doneAt.toISOString()} {...settings} />
          </span>
        )}
      </p>
      {step.reason && <p className="py-2">{step.reason}</p>}
      <ul>
        {step.holdPoints.map((hold) => (
          <li key={hold.id} className="flex flex-wrap justify-between gap-x-4 border-hair border-b py-2">
            <span>{hold.name}</span>
            <span className="font-mono">
              {hold.readings
                .map((r) =>
                  r.value === null ? "yes" : `${r.value} ${hold.unit} ${r.inside ? "inside" : "outside"}`,
                )
                .join(", ")}
              {hold.overrideReason && ` overridden: ${hold.overrideReason}`}
            </span>
          </li>
        ))}
      </ul>
      {step.state === "skipped" && mayWork && (
        <Form
          action={unskip}
          shop={slug}
          hidden={{ stepId: String(step.id), version: String(step.version) }}
          className="mt-3"
        >
          <SubmitButton tone="second">Take the skip back</SubmitButton>
        </Form>
      )}
      {mayWork && step.id === lastPassed && <TakeBack step={step} slug={slug} />}
      {mayWork && (
        <ActBar
          main={
            <LinkButton tone="main" size="act" href={left ? `${here}/card` : `${here}/finish`}>
              {left ? "To the step that is next" : "Record as left"}
            </LinkButton>
          }
        />
      )}
    </>
  );
}
