"use client";
import { useState } from "react";
import { Button } from "@/app/_ui/Button";
import { CheckField } from "@/app/_ui/CheckField";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import type { FormAction } from "@/app/_ui/formState";
import { moneyText } from "@/app/_ui/moneyText";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { cashRounding } from "@/lib/domain/money/cash";
import { parseMoney } from "@/lib/domain/money/parse";
import { METHOD_WORDS, PAYMENT_METHODS } from "@/lib/schemas/paymentWords";

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
  /** May be paid in two ways at once. */
  twoWays?: boolean;
  /** More than is due may be taken, and kept as the customer's balance. */
  mayKeepRest?: boolean;
}

/** Money in or out: how much, how, when; money in also by two methods at once. Cash is offered to the coin. */
export function MoneyForm(props: MoneyFormProps) {
  const { currency, locale, mostMinor } = props;
  const [method, setMethod] = useState("card");
  const [two, setTwo] = useState(false);
  const [alsoMinor, setAlsoMinor] = useState(0);
  const coins = (minor: number) =>
    cashRounding(minor, method === "cash" ? Math.max(1, props.stepMinor) : 1).payableMinor;
  const typed = (text: string) => {
    try {
      return Math.min(mostMinor, Math.max(0, parseMoney(text, currency, locale)));
    } catch {
      // Not an amount yet: what is wrong with it is said once it is sent.
      return 0;
    }
  };
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
        key={`${method} ${alsoMinor}`}
        name="amount"
        label={two ? `Amount in ${METHOD_WORDS[methodOf(method)]}, ${currency}` : `Amount, ${currency}`}
        inputMode="decimal"
        mono
        required
        initial={says(coins(Math.max(0, props.amountMinor - alsoMinor)))}
        hint={
          coins(mostMinor) === mostMinor
            ? `At most ${says(mostMinor)}.`
            : `${says(coins(mostMinor))} in coins settles ${says(mostMinor)}; the rounding is kept apart.`
        }
      />
      {props.twoWays && !two && (
        <Button tone="quiet" className="mb-4" onClick={() => setTwo(true)}>
          Part of it another way
        </Button>
      )}
      {two && (
        <fieldset
          className="min-w-0"
          onChange={({ target }) =>
            target instanceof HTMLInputElement &&
            target.name === "alsoAmount" &&
            setAlsoMinor(typed(target.value))
          }
        >
          <SelectField
            name="alsoMethod"
            label="And in another way"
            initial={method === "cash" ? "card" : "cash"}
            options={PAYMENT_METHODS.filter((value) => value !== method).map((value) => ({
              value,
              label: METHOD_WORDS[value],
            }))}
          />
          <TextField
            name="alsoAmount"
            label={`Amount of that, ${currency}`}
            inputMode="decimal"
            mono
            hint="The amount above becomes the rest."
          />
        </fieldset>
      )}
      {props.mayKeepRest && method !== "cash" && !two && (
        <CheckField
          name="keepRest"
          label="Keep what is over as the customer's balance"
          detail="It comes off another invoice, or goes back."
        />
      )}
      <DateField name="paidOn" label="Day" initial={props.today} max={props.today} required />
      <TextField name="reference" label={props.reference} maxLength={120} />
      <SubmitButton>{props.submit}</SubmitButton>
    </Form>
  );
}

const methodOf = (text: string) => PAYMENT_METHODS.find((one) => one === text) ?? "card";
