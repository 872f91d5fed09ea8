import { instantText } from "@/app/_ui/format";
import { moneyText } from "@/app/_ui/moneyText";
import { arrivalOfJob } from "@/lib/data/arrivals/get";
import { arrivalOnPaper } from "@/lib/data/papers/arrival";
import { handoverForPaper } from "@/lib/data/papers/handover";
import { dayText } from "@/lib/documents/format";
import type { HandoverPaper } from "@/lib/documents/handover";
import type { OpenedLink } from "@/lib/gate/customer";
import { checkTexts, payTexts } from "./handoverTexts";

/**
 * The handover sheet of a job as it is printed, for staff and for the customer by link: in the customer's language, whoever asks.
 * Null where there is no such job.
 */
export async function handoverPaper(
  shop: OpenedLink["shop"],
  jobId: number,
): Promise<(HandoverPaper & { readonly finished: boolean }) | null> {
  const found = await handoverForPaper(shop, jobId);
  if (!found) return null;
  const { checks, toPay, signed, shop: place, ...paper } = found;
  const { locale, zone, ...named } = place;
  const came = await arrivalOfJob(shop, jobId);
  const at = (when: Date) => instantText(when.toISOString(), locale, zone);
  return {
    ...paper,
    arrival: came && arrivalOnPaper(came, at),
    dayText: paper.finished ? dayText(paper.day, locale) : "",
    checks: checkTexts(checks, place),
    toPay: payTexts(toPay, locale, (minor) => moneyText(minor, toPay.currency, locale)),
    signed: signed && {
      signedBy: signed.signedBy,
      signedText: at(signed.signedAt),
      signature: signed.signature,
    },
    shop: { ...named, locale },
  };
}
