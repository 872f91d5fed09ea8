import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { saveDeposit } from "../actions";
import type { Given } from "./given";
import type { TermsShown } from "./shown/terms";

/** The deposit: as the shop usually asks, or this quote's own. */
export function DepositForm({ slug, hidden, currency, deposit }: Given & Pick<TermsShown, "deposit">) {
  return (
    <Form action={saveDeposit} shop={slug} hidden={hidden} label="Deposit">
      <SelectField
        name="how"
        label="How"
        initial={deposit.how}
        options={[
          { value: "shop", label: `As usual, ${deposit.shopBp / 100} %` },
          { value: "none", label: "None" },
          { value: "percent", label: "Percent of the total" },
          { value: "amount", label: "An amount" },
        ]}
      />
      <TextField
        name="amount"
        label={`How much, in % or ${currency}`}
        initial={deposit.amount}
        inputMode="decimal"
        mono
      />
      <SubmitButton>Save the deposit</SubmitButton>
    </Form>
  );
}
