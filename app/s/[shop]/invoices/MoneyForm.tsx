"use client";
import { useState } from "react";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { moneyText } from "@/app/_ui/format";
import type { FormAction } from "@/app/_ui/formState";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { cashRounding } from "@/lib/domain/money/cash";
import { METHOD_WORDS, PAYMENT_METHODS } from "@/lib/schemas/payments";

export interface MoneyFormProps {
  action: FormAction;
  shop: string;
  hidden: Readonly<Record<string, string>>;
  /** What may be taken or given at most. */
  mostMinor: number;
  /** What stands in the amount at first. */
  amountMinor: number;
  currency: string;
  locale: string;
  /** Smallest coin, for cash. */
  stepMinor: number;
  today: string;
  submit: string;
  /** The label of the last field: a reference, or why. */
  reference: string;
}

/** Money in or out: how much, how, when. Cash is offered to the coin. */
export function MoneyForm(props: MoneyFormProps) {
  const { currency, locale, mostMinor } = props;
  const [method, setMethod] = useState("card");
  const coins = (minor: number) =>
    cashRounding(minor, method === "cash" ? Math.max(1, props.stepMinor) : 1).payableMinor;
  const says = (minor: number) => moneyText(minor, currency, locale);
  return (
    <Form action={props.action} shop={props.shop} hidden={props.hidden} label={props.submit}>
      <fieldset
        className="min-w-0"
        onChange={(event) =>
          event.target instanceof HTMLInputElement &&
          event.target.name === "method" &&
          setMethod(event.target.value)
        }
      >
        <ChoiceField
          name="method"
          label="How"
          initial="card"
          options={PAYMENT_METHODS.map((value) => ({ value, label: METHOD_WORDS[value] }))}
        />
      </fieldset>
      <TextField
        key={method}
        name="amount"
        label={`Amount, ${currency}`}
        inputMode="decimal"
        mono
        required
        initial={says(coins(props.amountMinor))}
        hint={
          coins(mostMinor) === mostMinor
            ? `At most ${says(mostMinor)}.`
            : `${says(coins(mostMinor))} in coins settles ${says(mostMinor)}; the rounding is kept apart.`
        }
      />
      <DateField name="paidOn" label="Day" initial={props.today} max={props.today} required />
      <TextField name="reference" label={props.reference} maxLength={120} />
      <SubmitButton>{props.submit}</SubmitButton>
    </Form>
  );
}
