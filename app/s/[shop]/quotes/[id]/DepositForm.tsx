import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { DraftView } from "@/lib/data/quotes/draftView";
import { saveDeposit } from "../actions";
import type { Given } from "./given";

/** The deposit: as the shop usually asks, or this quote's own. */
export function DepositForm({
  slug,
  hidden,
  currency,
  draft,
  shopBp,
}: Given & { draft: DraftView; shopBp: number }) {
  const own = draft.agreed.deposit;
  const how =
    own === null ? "shop" : "amountMinor" in own ? "amount" : own.percentBp === 0 ? "none" : "percent";
  return (
    <Form action={saveDeposit} shop={slug} hidden={hidden} label="Deposit">
      <SelectField
        name="how"
        label="How"
        initial={how}
        options={[
          { value: "shop", label: `As usual, ${shopBp / 100} %` },
          { value: "none", label: "None" },
          { value: "percent", label: "Percent of the total" },
          { value: "amount", label: "An amount" },
        ]}
      />
      <TextField
        name="amount"
        label={`How much, in % or ${currency}`}
        initial={own && "percentBp" in own && own.percentBp > 0 ? String(own.percentBp / 100) : ""}
        inputMode="decimal"
        mono
      />
      <SubmitButton>Save the deposit</SubmitButton>
    </Form>
  );
}
