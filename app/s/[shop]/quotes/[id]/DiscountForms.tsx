import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { saveDiscount, saveLineDiscount } from "../actions";
import type { Given } from "./given";
import type { TermsShown } from "./shown/terms";

/** A discount on the whole quote. */
export function DiscountForm({ slug, hidden, currency, discount }: Given & Pick<TermsShown, "discount">) {
  return (
    <Form action={saveDiscount} shop={slug} hidden={hidden} label="Discount">
      <SelectField
        name="how"
        label="How"
        initial={discount.how}
        options={[
          { value: "none", label: "None besides the customer's own" },
          { value: "percent", label: "Percent, in place of the customer's own" },
          { value: "amount", label: "An amount, on top of the customer's own" },
        ]}
      />
      <TextField
        name="amount"
        label={`How much, in % or ${currency}`}
        initial={discount.amount}
        inputMode="decimal"
        mono
      />
      <TextField name="why" label="Why" hint="Printed on the quote" initial={discount.why} maxLength={120} />
      <SubmitButton>Save the discount</SubmitButton>
    </Form>
  );
}

/** A discount on one line. */
export function LineDiscountForm({ slug, hidden, lines }: Given & Pick<TermsShown, "lines">) {
  return (
    <Form action={saveLineDiscount} shop={slug} hidden={hidden} label="Discount on one line">
      <SelectField
        name="line"
        label="Line"
        options={lines.map(({ key, label }) => ({ value: key, label }))}
      />
      <TextField
        name="percent"
        label="Percent off"
        hint="Empty or 0 takes it away"
        inputMode="decimal"
        mono
      />
      <TextField name="why" label="Why" maxLength={120} />
      <SubmitButton>Save the discount</SubmitButton>
    </Form>
  );
}
