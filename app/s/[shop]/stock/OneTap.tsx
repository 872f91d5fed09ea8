"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { usePart } from "./actions";

/** A use that needs nothing typed. */
export interface Tap {
  readonly jobId: number;
  readonly job: string;
  readonly title: string;
  readonly reservationId: number | null;
  /** As it is sent, and as it is said. */
  readonly quantity: string;
  readonly shown: string;
}

export interface OneTapProps {
  shop: string;
  partId: number;
  code: string;
  tap: Tap;
  /** The job's title under the button. */
  withTitle?: boolean | undefined;
}

/** One button that uses a part for a job. */
export function OneTap({ shop, partId, code, tap, withTitle = false }: OneTapProps) {
  const whence =
    tap.reservationId === null ? { jobId: String(tap.jobId) } : { reservationId: String(tap.reservationId) };
  return (
    <Form
      action={usePart}
      shop={shop}
      hidden={{ partId: String(partId), quantity: tap.quantity, ...whence }}
      label={`Use ${code} for job ${tap.job}`}
    >
      <SubmitButton size="act" className="w-full">
        <span>
          Use {tap.shown}
          <span className="sr-only"> of {code}</span> for job {tap.job}
        </span>
      </SubmitButton>
      {withTitle && <p className="mt-0.5 text-[14px] text-soft">{tap.title}</p>}
    </Form>
  );
}
