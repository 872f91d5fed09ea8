"use client";
import { lazy, Suspense } from "react";
import { Button } from "@/app/_ui/Button";
import { cx } from "@/app/_ui/cx";
import { useScreen } from "@/app/_ui/Screen";
import type { QuoteScreen } from "./shown/screen";

/** Drafts seldom have them. */
const AlternativeTicks = lazy(async () => ({
  default: (await import("./AlternativeTicks")).AlternativeTicks,
}));
/** Of drafts that cannot be sent yet. */
const Reasons = lazy(async () => ({ default: (await import("./Reasons")).Reasons }));
/** Of what the customer had already. */
const LinkForm = lazy(async () => ({ default: (await import("./LinkForm")).LinkForm }));

interface Props {
  slug: string;
  id: number;
  state: "draft" | "sent";
  mailTo: string;
  /** Why no letter goes to this customer, and what to do; empty where one does. */
  instead: string;
  currency: string;
  locale: string;
}

/** The way to the customer: a draft is read over first, as they will read it; what they had before goes again at once. */
export function SendForm({ slug, id, state, mailTo, instead, currency, locale }: Props) {
  const version = useScreen((screen: QuoteScreen) => screen.version);
  const draft = useScreen((screen: QuoteScreen) => screen.draft);
  const { again = null, sendable = false, alternatives = [], warnings = [] } = draft ?? {};
  const place = "grid max-w-[26rem] justify-items-end max-sm:justify-items-stretch";
  if (state === "sent" || (again !== null && sendable))
    return (
      <Suspense>
        <LinkForm
          {...{ slug, id, version, state, mailTo, instead }}
          letters={again ?? []}
          send="Send it again, unchanged"
          className={place}
        />
      </Suspense>
    );
  return (
    <form
      method="get"
      action={`/s/${slug}/quotes/${id}/preview`}
      aria-label="Send to the customer"
      className={cx(place, alternatives.length > 0 && "max-sm:basis-full!")}
    >
      {alternatives.length > 0 && (
        <Suspense>
          <AlternativeTicks alternatives={alternatives} currency={currency} locale={locale} />
        </Suspense>
      )}
      <Button type="submit" tone="main" disabled={!sendable}>
        Send for a yes
      </Button>
      {!sendable && (
        <Suspense>
          <Reasons
            slug={slug}
            stops={warnings.filter((warning) => warning.stops)}
            className="mt-1 max-w-[22rem] text-[14px] sm:text-end"
          />
        </Suspense>
      )}
    </form>
  );
}
