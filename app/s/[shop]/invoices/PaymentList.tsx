import { DateField } from "@/app/_ui/DateField";
import { DateText } from "@/app/_ui/DateText";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { Money } from "@/app/_ui/Money";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { movedMinor } from "@/lib/domain/invoices/held";
import { METHOD_WORDS, PAYMENT_WORDS } from "@/lib/schemas/paymentWords";
import { bounce } from "./actions";
import { PaymentPaper } from "./PaymentPaper";

export interface PaymentRow {
  readonly id: number;
  readonly kind: keyof typeof PAYMENT_WORDS;
  readonly method: string;
  readonly amountMinor: number;
  readonly roundingMinor: number;
  readonly paidOn: string;
  readonly reference: string;
  readonly reversesId: number | null;
}

/** Money of a job in the order it moved; money that went back is below zero. */
export function PaymentList({
  payments,
  currency,
  locale,
  papers,
  bounces,
}: {
  payments: readonly PaymentRow[];
  currency: string;
  locale: string;
  /** Its receipts can be taken as files, and mailed by whoever may. */
  papers?: { readonly slug: string; readonly mayMail: boolean } | undefined;
  /** Whoever may say so says here which of it bounced. */
  bounces?: { readonly slug: string; readonly today: string } | undefined;
}) {
  const reversed = new Set(payments.map((payment) => payment.reversesId));
  const mayBounce = ({ id, kind, method }: PaymentRow) =>
    (kind === "payment" || kind === "deposit") &&
    (method === "card" || method === "transfer") &&
    !reversed.has(id);
  const mayHavePaper = ({ id, kind, method }: PaymentRow) =>
    (kind === "payment" || kind === "deposit" || kind === "refund") &&
    method !== "balance" &&
    !reversed.has(id);
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} />;
  return (
    <ul>
      {payments.map((payment) => (
        <li key={payment.id} className="flex items-baseline justify-between gap-4 border-hair border-b py-2">
          <span className="min-w-0">
            <DateText date={payment.paidOn} locale={locale} />, {PAYMENT_WORDS[payment.kind]}
            {payment.method && ", "}
            {METHOD_WORDS[payment.method as keyof typeof METHOD_WORDS] ?? payment.method}
            {(payment.reference || payment.roundingMinor !== 0) && (
              <span className="block text-[14px] text-soft">
                {payment.reference}{" "}
                {payment.roundingMinor !== 0 && <>cash rounding {money(payment.roundingMinor)}</>}
              </span>
            )}
          </span>
          <span className="flex shrink-0 flex-wrap items-baseline justify-end gap-x-3">
            {money(movedMinor(payment))}
            {papers && mayHavePaper(payment) && <PaymentPaper {...papers} payment={payment} />}
            {bounces && mayBounce(payment) && (
              <Dialog trigger="It bounced" triggerTone="quiet" title="A payment that bounced">
                <Form
                  action={bounce}
                  shop={bounces.slug}
                  hidden={{ paymentId: String(payment.id) }}
                  label="Bounced payment"
                >
                  <p className="mb-3 max-w-prose">
                    The payment stays on record, and an entry takes {money(payment.amountMinor)} back. What it
                    paid is due again.
                  </p>
                  <DateField name="paidOn" label="Day" initial={bounces.today} max={bounces.today} required />
                  <TextField name="reference" label="Why" maxLength={120} required />
                  <SubmitButton tone="danger">Record as bounced</SubmitButton>
                </Form>
              </Dialog>
            )}
          </span>
        </li>
      ))}
    </ul>
  );
}
