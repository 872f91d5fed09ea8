import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import type { Withheld } from "@/lib/data/mail/letters";
import { NoLetter } from "../../../_letters/NoLetter";
import { sendStatement } from "./actions";

interface Props {
  slug: string;
  customer: { readonly id: number; readonly name: string; readonly email: string; readonly phone: string };
  days: { readonly from: string; readonly to: string };
  withheld: Withheld | null;
}

/** The statement as a mail to the customer, or why none is written. */
export function MailIt({ slug, customer, days, withheld }: Props) {
  return (
    <Dialog trigger="Mail it" triggerTone="main" title="Mail the statement">
      {withheld ? (
        <NoLetter withheld={withheld} customer={customer} link={false} />
      ) : (
        <Form
          action={sendStatement}
          shop={slug}
          hidden={{ customerId: String(customer.id), ...days }}
          label="Mail the statement"
        >
          <p className="mb-3">The statement goes to {customer.email}, as it stands now.</p>
          <TextArea name="words" label="In your own words (may stay empty)" rows={3} maxLength={1000} />
          <SubmitButton>Send the statement</SubmitButton>
        </Form>
      )}
    </Dialog>
  );
}
