"use client";
import { Form } from "@/app/_ui/Form";
import { keptAs } from "@/app/_ui/offline/keptAs";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { start, stop } from "../../../actions";
import { RunningClock } from "../RunningClock";

interface KeptTimeProps {
  slug: string;
  jobId: number;
  stepId: number | undefined;
  /** Since when it runs, by the device's clock. */
  since: number | null;
  /** Time on the job before. */
  ownMs: number;
}

/** The person's time on a kept card: started and stopped here, written down by the device's clock. */
export function KeptTime({ slug, jobId, stepId, since, ownMs }: KeptTimeProps) {
  const hidden = { jobId: String(jobId), ...(stepId === undefined ? {} : { stepId: String(stepId) }) };
  return (
    <div className="flex flex-none items-center gap-3">
      {since !== null && <RunningClock key={since} untilNowMs={ownMs + Math.max(0, Date.now() - since)} />}
      {since !== null ? (
        <Form
          key="stop"
          action={stop}
          shop={slug}
          hidden={{ jobId: String(jobId), ...keptAs("stop", jobId, "Your time stopped") }}
          label="Your time"
        >
          <SubmitButton tone="second">Stop</SubmitButton>
        </Form>
      ) : (
        <Form
          key="start"
          action={start}
          shop={slug}
          hidden={{ ...hidden, ...keptAs("start", jobId, "Your time started") }}
          label="Your time"
        >
          <SubmitButton tone="second">Start time</SubmitButton>
        </Form>
      )}
    </div>
  );
}
