import { CheckField } from "@/app/_ui/CheckField";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { Money } from "@/app/_ui/Money";
import { PickField } from "@/app/_ui/PickField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { SaleView } from "@/lib/data/sales/get";
import { cashRounding } from "@/lib/domain/money/cash";
import { METHOD_WORDS, PAYMENT_METHODS } from "@/lib/schemas/paymentWords";
import type { Pick } from "@/lib/schemas/picks";
import { quantityText } from "@/lib/schemas/quantity";
import { EarlierDate } from "../../invoices/[id]/EarlierDate";
import { mailReceipt, makeFullInvoice, takeSaleBack } from "../actions";

interface ActsProps {
  slug: string;
  sale: SaleView;
  currency: string;
  locale: string;
}

/** Sends the paper that stands to the customer's address, or to one that they say. */
export function MailIt({ slug, sale }: ActsProps) {
  const { shown } = sale;
  return (
    <Dialog trigger="Mail it" title="Mail it">
      <Form action={mailReceipt} shop={slug} hidden={{ id: String(shown.id) }} label="Mail it">
        <TextField name="to" label="To" type="email" initial={shown.customer?.email ?? ""} required />
        <SubmitButton>Mail it</SubmitButton>
      </Form>
    </Dialog>
  );
}

/** A receipt turned into an invoice that names its buyer. */
export function FullInvoice({ slug, sale, locale, newest }: ActsProps & { newest: readonly Pick[] }) {
  return (
    <Dialog trigger="Full tax invoice" title="A full tax invoice in place of the receipt">
      <Form action={makeFullInvoice} shop={slug} hidden={{ saleId: String(sale.id) }} label="Full invoice">
        <p className="mb-3 max-w-prose">
          A credit note takes the receipt back, and an invoice with the customer's name takes its place. Parts
          and money stay as they are. This cannot be undone.
        </p>
        <PickField
          shop={slug}
          from="customers"
          name="customerId"
          label="Customer"
          newest={newest}
          blank="Choose the customer"
          required
        />
        <EarlierDate later={sale.later} today={sale.today} locale={locale} />
        <SubmitButton>Make the invoice</SubmitButton>
      </Form>
    </Dialog>
  );
}

/** The whole sale back: parts, papers and money at once. */
export function TakeItBack({ slug, sale, currency, locale }: ActsProps) {
  const { depositLeftMinor, cashRoundingMinor } = sale;
  const cash = cashRounding(depositLeftMinor, Math.max(1, cashRoundingMinor)).payableMinor;
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} code />;
  return (
    <Dialog trigger="Take it back" triggerTone="danger" title="Take the whole sale back">
      <Form action={takeSaleBack} shop={slug} hidden={{ saleId: String(sale.id) }} label="Take it back">
        <p className="mb-3 max-w-prose">
          {money(depositLeftMinor)} goes back to the customer
          {cash !== depositLeftMinor && <> ({money(cash)} in coins)</>}, with a credit note. This cannot be
          undone.
        </p>
        <fieldset className="mb-4">
          <legend className="mb-1 font-semibold text-[15px]">Back in the drawer</legend>
          <p className="text-[14px] text-soft">
            Take the tick off what cannot be sold again: it is scrapped.
          </p>
          {sale.parts.map((part) => (
            <CheckField
              key={part.partId}
              name="back[]"
              value={String(part.partId)}
              label={`${quantityText(part.quantityMilli, part.unit)} of ${part.code}, ${part.name}`}
              initial
            />
          ))}
        </fieldset>
        <ChoiceField
          name="method"
          label="How the money goes back"
          initial={sale.payments[0]?.method ?? "cash"}
          options={PAYMENT_METHODS.map((value) => ({ value, label: METHOD_WORDS[value] }))}
        />
        <TextField name="reason" label="Why (printed on the credit note)" maxLength={300} required />
        <EarlierDate later={sale.later} today={sale.today} locale={locale} />
        <SubmitButton tone="danger">Take it back</SubmitButton>
      </Form>
    </Dialog>
  );
}
