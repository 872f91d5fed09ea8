import { cx } from "@/app/_ui/cx";
import { Form } from "@/app/_ui/Form";
import { Shown } from "@/app/_ui/Shown";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { KeptChoice } from "@/lib/data/quotes/draftView";
import { makeNewLink, sendForYes } from "../actions";
import { AlternativeTicks } from "./AlternativeTicks";

interface Props {
  slug: string;
  id: number;
  version: number;
  state: "draft" | "sent";
  sendable: boolean;
  mailTo: string;
  /** What may go along with a draft. */
  alternatives: readonly KeptChoice[];
  currency: string;
  locale: string;
}

/** One form before and after sending, so that the link it hands back stays to be copied. */
export function SendForm({ slug, id, version, state, sendable, mailTo, ...choice }: Props) {
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
      <Shown
        name="link"
        before="The customer's link. It is shown only now:"
        after={
          mailTo ? (
            <p className="mt-1 text-[14px]">A mail to {mailTo} is in the mail queue.</p>
          ) : (
            <p className="mt-1 text-[14px]">No mail address is known: send it yourself.</p>
          )
        }
      />
    </Form>
  );
}
