import { Button } from "@/app/_ui/Button";
import { cx } from "@/app/_ui/cx";
import type { KeptChoice } from "@/lib/data/quotes/draftView";
import type { QuoteWarning } from "@/lib/domain/quoting/result";
import { AlternativeTicks } from "./AlternativeTicks";
import { LinkForm } from "./LinkForm";
import { Reasons } from "./Reasons";

interface Props {
  slug: string;
  id: number;
  version: number;
  state: "draft" | "sent";
  sendable: boolean;
  /** What keeps a draft from being sent. */
  stops: readonly QuoteWarning[];
  mailTo: string;
  /** Why no letter goes to this customer, and what to do; empty where one does. */
  instead: string;
  /** Alternatives of a draft that says what was sent before, which goes out again at once; null where it is read over first. */
  again: readonly string[] | null;
  /** What may go along with a draft. */
  alternatives: readonly KeptChoice[];
  currency: string;
  locale: string;
}

/** The way to the customer: a draft is read over first, as they will read it; what they had before goes again at once. */
export function SendForm({
  slug,
  id,
  version,
  state,
  sendable,
  stops,
  mailTo,
  instead,
  again,
  ...choice
}: Props) {
  const place = "grid max-w-[26rem] justify-items-end max-sm:justify-items-stretch";
  if (state === "sent" || (again !== null && sendable))
    return (
      <LinkForm
        {...{ slug, id, version, state, mailTo, instead }}
        letters={again ?? []}
        send="Send it again, unchanged"
        className={place}
      />
    );
  return (
    <form
      method="get"
      action={`/s/${slug}/quotes/${id}/preview`}
      aria-label="Send to the customer"
      className={cx(place, choice.alternatives.length > 0 && "max-sm:basis-full!")}
    >
      <AlternativeTicks {...choice} />
      <Button type="submit" tone="main" disabled={!sendable}>
        Send for a yes
      </Button>
      {!sendable && (
        <Reasons slug={slug} stops={stops} className="mt-1 max-w-[22rem] text-[14px] sm:text-end" />
      )}
    </form>
  );
}
