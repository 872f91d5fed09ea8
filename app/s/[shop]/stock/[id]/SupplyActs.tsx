"use client";
import { CheckField } from "@/app/_ui/CheckField";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { addInstead, dropInstead } from "../actions";
import { keepOffer } from "../suppliers/actions";

interface PartOf {
  shop: string;
  partId: number;
  code: string;
}

export function OfferForm({
  shop,
  partId,
  code,
  unit,
  currency,
  withCost,
}: PartOf & { unit: string; currency: string; withCost: boolean }) {
  const shownUnit = unit === "each" ? undefined : unit;
  return (
    <Dialog trigger="Add or change" triggerTone="quiet" title={`Who sells ${code}`}>
      <Form action={keepOffer} shop={shop} hidden={{ partId: String(partId) }} label="Who sells it">
        <TextField name="supplier" label="Supplier" required hint="One that sells it already is changed." />
        <TextField name="code" label="Supplier's code" mono />
        <NumberField name="pack" label="Comes in packs of" unit={shownUnit} min={0} hint="Empty: loose." />
        <NumberField
          name="least"
          label="Sold from"
          unit={shownUnit}
          min={0}
          hint="The least at once; empty: any."
        />
        {withCost && <TextField name="cost" label={`Cost of one, ${currency}`} inputMode="decimal" mono />}
        <NumberField
          name="leadDays"
          label="Days to arrive"
          min={0}
          hint="Empty: as the supplier's other parts."
        />
        <CheckField name="usual" value="true" label="The usual one" detail="Orders go there." />
        <SubmitButton size="act">Save</SubmitButton>
      </Form>
    </Dialog>
  );
}

export function AddInstead({ shop, partId, code }: PartOf) {
  return (
    <Dialog trigger="Add" triggerTone="quiet" title={`What does in place of ${code}`}>
      <Form action={addInstead} shop={shop} hidden={{ partId: String(partId) }} label="Add an substitute">
        <TextField name="code" label="Part's code" mono required />
        <TextField name="note" label="Note" hint="For example: half a size richer." />
        <SubmitButton size="act">Add it</SubmitButton>
      </Form>
    </Dialog>
  );
}

export function DropInstead({
  shop,
  partId,
  otherId,
  otherCode,
}: PartOf & { otherId: number; otherCode: string }) {
  return (
    <Form
      action={dropInstead}
      shop={shop}
      hidden={{ partId: String(partId), otherId: String(otherId) }}
      label={`Take ${otherCode} off`}
    >
      <SubmitButton tone="quiet">Take off</SubmitButton>
    </Form>
  );
}
