import type { OneTap } from "@/lib/data/jobs/takePart";
import { amountText } from "./amount";
import type { Tap } from "./OneTap";

/** A one-tap use as its button takes it. */
export function tapShown(tap: OneTap, unit: string, locale: string): Tap {
  const { jobId, job, title, reservationId, quantityMilli } = tap;
  return {
    jobId,
    job,
    title,
    reservationId,
    quantity: String(quantityMilli / 1000),
    shown: amountText(quantityMilli, unit, locale),
  };
}
