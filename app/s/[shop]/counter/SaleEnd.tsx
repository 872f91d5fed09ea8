"use client";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { PickField } from "@/app/_ui/PickField";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { TypedFigure } from "@/app/_ui/TypedFigure";
import type { PricedQuote } from "@/lib/domain/pricing/facts";
import { METHOD_WORDS, PAYMENT_METHODS } from "@/lib/schemas/paymentWords";
import type { Buyer } from "@/lib/schemas/picks";
import { AlsoPaid } from "./AlsoPaid";
import type { CounterDeskProps } from "./CounterDesk";
import { SaleTotal } from "./SaleTotal";

/** How a sale is paid and what comes off it, as typed so far. */
export interface SaleTyped {
  readonly method: string;
  readonly given: string;
  readonly alsoMethod: string;
  readonly alsoAmount: string;
  readonly off: string;
  readonly offWhy: string;
}

export interface SaleEndProps extends CounterDeskProps {
  typed: SaleTyped;
  set: (change: Partial<SaleTyped>) => void;
  priced: PricedQuote | null;
  why: string;
}

/** How a sale is paid, to whom it goes, and the act that sells: there is none of it until something is sold. */
export function SaleEnd({ shop, rules, stepMinor, buyers, earlier, typed, set, priced, why }: SaleEndProps) {
  const { method, given, alsoMethod, alsoAmount, off, offWhy } = typed;
  const chosen = (customer: Buyer | null) =>
    set({
      off: customer && customer.discountBp > 0 ? String(customer.discountBp / 100) : "",
      offWhy: customer?.discountClass ?? "",
    });
  return (
    <div className="grid gap-x-10 rail:grid-cols-2">
      <Section title="Paid">
        <fieldset
          className="min-w-0"
          onChange={({ target }) => {
            if (!(target instanceof HTMLInputElement && target.name === "method")) return;
            set({ method: target.value, ...(target.value === alsoMethod ? { alsoMethod: "" } : {}) });
          }}
        >
          <ChoiceField
            name="method"
            label="How"
            initial="cash"
            options={PAYMENT_METHODS.map((value) => ({ value, label: METHOD_WORDS[value] }))}
          />
        </fieldset>
        {method === "cash" && (
          <TypedFigure
            label={`Given, ${rules.currency}`}
            name="given"
            value={given}
            onType={(next) => set({ given: next })}
            className="mb-4 max-w-48"
            hint="Empty where it is exact."
          />
        )}
        <AlsoPaid
          method={method}
          also={alsoMethod}
          amount={alsoAmount}
          currency={rules.currency}
          onMethod={(next) => set({ alsoMethod: next })}
          onAmount={(next) => set({ alsoAmount: next })}
        />
        <SaleTotal
          priced={priced}
          why={why}
          method={method}
          given={method === "cash" ? given : ""}
          also={{ method: alsoMethod, amount: alsoMethod === "" ? "" : alsoAmount }}
          stepMinor={stepMinor}
          rules={rules}
        />
        {earlier}
        <SubmitButton size="act" className="mt-4 w-full">
          Sell and print
        </SubmitButton>
      </Section>
      <Section title="To whom, if it matters">
        <PickField
          shop={shop}
          from="buyers"
          name="customerId"
          label="Customer"
          newest={buyers}
          blank="Walk-in"
          onPick={chosen}
        />
        <ChoiceField
          name="paper"
          label="Paper"
          initial="receipt"
          options={[
            { value: "receipt", label: "Receipt" },
            {
              value: "invoice",
              label: "Full tax invoice",
              detail: "Names the customer: choose who it is for.",
            },
          ]}
        />
        <TypedFigure
          label="% off the whole"
          name="discount"
          value={off}
          onType={(next) => set({ off: next })}
          className="mb-4 max-w-32"
        />
        {off !== "" && (
          <TextField key={offWhy} name="discountWhy" label="Why (printed)" initial={offWhy} maxLength={80} />
        )}
      </Section>
    </div>
  );
}
