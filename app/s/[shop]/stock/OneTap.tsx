"use client";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
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
  /** The job's title under the button, leading to its card. */
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
      {withTitle && (
        <Link
          href={`/s/${shop}/jobs/${tap.jobId}/card`}
          className="inline-flex min-h-6 items-center text-[14px] text-brass underline underline-offset-4 pointer-coarse:min-h-12"
        >
          {tap.title}
          <span className="sr-only">: the card of job {tap.job}</span>
        </Link>
      )}
    </Form>
  );
}
