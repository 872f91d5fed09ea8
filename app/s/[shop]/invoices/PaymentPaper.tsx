import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { mailReceipt } from "./actions";

/** A payment's receipt, or the note of what went back: as a file, and mailed. */
export function PaymentPaper({
  slug,
  mayMail,
  payment,
}: {
  slug: string;
  mayMail: boolean;
  payment: { readonly id: number; readonly kind: string };
}) {
  const title = payment.kind === "refund" ? "Note of the repayment" : "Receipt of the payment";
  return (
    <Dialog trigger={payment.kind === "refund" ? "Note" : "Receipt"} triggerTone="quiet" title={title}>
      <p className="mb-4">
        <LinkButton href={`/api/s/${slug}/payments/${payment.id}/pdf`} download>
          PDF
        </LinkButton>
      </p>
      {mayMail && (
        <Form
          action={mailReceipt}
          shop={slug}
          hidden={{ paymentId: String(payment.id) }}
          label="Mail the receipt"
        >
          <p className="mb-3 max-w-prose">A mail with it goes to the customer.</p>
          <SubmitButton>Write the mail</SubmitButton>
        </Form>
      )}
    </Dialog>
  );
}
