import { Form } from "@/app/_ui/Form";
import { ShownLink } from "@/app/_ui/ShownLink";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { sendForYes } from "../actions";
import { Mailed } from "./Mailed";

interface Props {
  slug: string;
  id: number;
  version: number;
  state: "draft" | "sent";
  /** Alternatives that go along. */
  letters: readonly string[];
  mailTo: string;
  /** Why no letter goes to this customer, and what to do; empty where one does. */
  instead: string;
  /** Words on the button that sends a draft. */
  send: string;
  disabled?: boolean | undefined;
  className?: string | undefined;
}

/** One form before and after sending, so that the link it hands back stays to be copied. */
export function LinkForm({
  slug,
  id,
  version,
  state,
  letters,
  mailTo,
  instead,
  send,
  disabled,
  className,
}: Props) {
  const draft = state === "draft";
  return (
    <Form
      action={sendForYes}
      shop={slug}
      hidden={{ id: String(id), version: String(version), ...(draft ? {} : { anew: "on" }) }}
      label="Send to the customer"
      className={className}
    >
      {draft &&
        letters.map((letter) => (
          <input key={letter} type="hidden" name="alternatives[]" value={letter} readOnly />
        ))}
      <SubmitButton tone={draft ? "main" : "second"} disabled={disabled}>
        {draft ? send : "Make a new link"}
      </SubmitButton>
      <ShownLink
        before="The customer's link. It is shown only now:"
        after={<Mailed to={mailTo} instead={instead} />}
      />
    </Form>
  );
}
