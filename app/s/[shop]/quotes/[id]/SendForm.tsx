import { cx } from "@/app/_ui/cx";
import { Form } from "@/app/_ui/Form";
import { ShownLink } from "@/app/_ui/ShownLink";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { KeptChoice } from "@/lib/data/quotes/draftView";
import type { QuoteWarning } from "@/lib/domain/quoting/result";
import { makeNewLink, sendForYes } from "../actions";
import { AlternativeTicks } from "./AlternativeTicks";
import { Mailed } from "./Mailed";
import { Mend } from "./Mend";

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
  /** What may go along with a draft. */
  alternatives: readonly KeptChoice[];
  currency: string;
  locale: string;
}

/** One form before and after sending, so that the link it hands back stays to be copied. */
export function SendForm({ slug, id, version, state, sendable, stops, mailTo, instead, ...choice }: Props) {
  const draft = state === "draft";
  return (
    <Form
      action={draft ? sendForYes : makeNewLink}
      shop={slug}
      hidden={{ id: String(id), version: String(version) }}
      label="Send to the customer"
      className={cx(
        "grid max-w-[26rem] justify-items-end max-sm:justify-items-stretch",
        choice.alternatives.length > 0 && "max-sm:basis-full!",
      )}
    >
      {draft && <AlternativeTicks {...choice} />}
      <SubmitButton tone={draft ? "main" : "second"} disabled={draft && !sendable}>
        {draft ? "Send for a yes" : "Make a new link"}
      </SubmitButton>
      {draft && !sendable && <Reasons slug={slug} stops={stops} />}
      <ShownLink
        before="The customer's link. It is shown only now:"
        after={<Mailed to={mailTo} instead={instead} />}
      />
    </Form>
  );
}

/** Why the button cannot be pressed yet, each reason with the way to its mend. */
function Reasons({ slug, stops }: { slug: string; stops: readonly QuoteWarning[] }) {
  const nothing = {
    message: "Nothing is on this quote yet.",
    remedy: "",
    stops: true,
    place: "works" as const,
  };
  return (
    <ul aria-label="Not to be sent yet" className="mt-1 max-w-[22rem] text-[14px] sm:text-end">
      {(stops.length > 0 ? stops : [nothing]).map((warning) => (
        <li key={warning.message}>
          {warning.message}
          <Mend slug={slug} warning={warning} />
        </li>
      ))}
    </ul>
  );
}
