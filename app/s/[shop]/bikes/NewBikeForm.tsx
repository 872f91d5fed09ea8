"use client";
import { useState } from "react";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { NumberField } from "@/app/_ui/NumberField";
import { PickField } from "@/app/_ui/PickField";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { CARBURETTOR_TYPES } from "@/lib/schemas/carburettorTypes";
import type { Pick } from "@/lib/schemas/picks";
import { addBike } from "./actions";
import { BikeDetails, type UseChoice } from "./BikeDetails";

export interface NewBikeFormProps {
  readonly shop: string;
  readonly units: string;
  readonly customers: readonly Pick[];
  /** The one that the bike is added for, where that is known. */
  readonly customer: Pick | null;
  readonly cards: readonly Pick[];
  readonly mayAddCustomer: boolean;
  readonly uses: readonly UseChoice[];
}

/** A bike for a customer, on a card the shop has or on a new smallest one. */
export function NewBikeForm(props: NewBikeFormProps) {
  const { shop, units, customers, customer, cards, mayAddCustomer, uses } = props;
  const [card, setCard] = useState<"known" | "new">(cards.length > 0 ? "known" : "new");
  const tab = (kind: "known" | "new", words: string) => (
    <label className="flex min-h-11 items-center gap-2.5 pointer-coarse:min-h-12">
      <input
        type="radio"
        name="card"
        value={kind}
        checked={card === kind}
        onChange={() => setCard(kind)}
        className="tick"
      />
      {words}
    </label>
  );
  return (
    <Form action={addBike} shop={shop} label="New bike" className="max-w-[760px]">
      <Section title="Whose">
        <PickField
          shop={shop}
          from="customers"
          name="customerId"
          label="Customer"
          chosen={customer}
          newest={customers}
          required
        />
        {mayAddCustomer && (
          <p className="-mt-2 mb-4 text-[14px]">
            Not found?{" "}
            <Link href={`/s/${shop}/customers/new`} className="text-brass underline underline-offset-4">
              Add the customer first
            </Link>
            .
          </p>
        )}
      </Section>
      <Section title="Model">
        <fieldset className="mb-3 flex flex-wrap gap-x-8">
          <legend className="sr-only">Model card</legend>
          {tab("known", "A model with a card")}
          {tab("new", "A new model")}
        </fieldset>
        {card === "known" ? (
          <PickField
            shop={shop}
            from="cards"
            name="modelCardId"
            label="Model card"
            newest={cards}
            hint="Make or model."
            required
          />
        ) : (
          <div className="grid gap-x-5 sm:grid-cols-2">
            <TextField name="make" label="Make" required maxLength={60} />
            <TextField name="model" label="Model" required maxLength={60} />
            <NumberField
              name="displacementCc"
              label="Displacement"
              unit="cc"
              step={10}
              min={20}
              max={3000}
              required
            />
            <NumberField name="cylinders" label="Cylinders" initial={1} min={1} max={6} required />
            <NumberField name="carburettors" label="Carburettors" initial={1} min={1} max={4} required />
            <SelectField
              name="carburettorType"
              label="Carburettor type"
              options={CARBURETTOR_TYPES.map((type) => ({ value: type, label: type }))}
              hint="The rest of the card can be filled in later."
            />
          </div>
        )}
      </Section>
      <BikeDetails units={units} uses={uses} />
      <SubmitButton size="act">Add the bike</SubmitButton>
    </Form>
  );
}
