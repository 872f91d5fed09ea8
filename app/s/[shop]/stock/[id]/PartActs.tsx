"use client";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { DateField } from "@/app/_ui/DateField";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { binText } from "@/lib/domain/stock/bins";
import { chosen } from "@/lib/schemas/chosenBin";
import { receivePart, returnPart, takeOutPart } from "../actions";
import { draftPart } from "../orders/actions";

export interface PartActsProps {
  shop: string;
  partId: number;
  code: string;
  unit: string;
  /** Its usual bin. */
  bin: string;
  /** Where it lies, the usual bin first. */
  lying: readonly { bin: string; text: string }[];
  currency: string;
  mayWrite: boolean;
  mayUse: boolean;
  withCost: boolean;
  /** The acts of every day stand in the page's head, the others beside the bin. */
  where: "head" | "bin";
}

/** What can be done with a part where it lies: each act is one move of its ledger. */
export function PartActs({
  shop,
  partId,
  code,
  unit,
  bin,
  lying,
  currency,
  mayWrite,
  mayUse,
  withCost,
  where,
}: PartActsProps) {
  const hidden = { partId: String(partId) };
  const shownUnit = unit === "each" ? undefined : unit;
  const howMuch = (label: string) => (
    <NumberField name="quantity" label={label} unit={shownUnit} min={0} required />
  );
  const intoBin = (
    <TextField
      name="bin"
      label="Into bin"
      initial={bin}
      list="bins"
      mono
      maxLength={30}
      hint={bin ? "Empty: its usual bin." : "It has no usual bin yet."}
    />
  );
  return (
    <>
      {mayWrite && where === "bin" && (
        <Dialog trigger="Put on order" title={`Put ${code} on order`}>
          <Form action={draftPart} shop={shop} hidden={hidden} label="Put on order">
            {howMuch("How much")}
            <TextField
              name="why"
              label="Note"
              hint="It goes on its supplier's draft, which you place when it is whole."
            />
            <SubmitButton size="act">Put on the draft</SubmitButton>
          </Form>
        </Dialog>
      )}
      {mayUse && where === "bin" && (
        <Dialog trigger="Return to stock" title={`Return ${code} to stock`}>
          <Form action={returnPart} shop={shop} hidden={hidden} label="Return to stock">
            {howMuch("How much comes back")}
            {intoBin}
            <TextField
              name="why"
              label="From where"
              required
              hint="For example: taken off again on the ride of job 618."
            />
            <SubmitButton size="act">Return it</SubmitButton>
          </Form>
        </Dialog>
      )}
      {mayWrite && where === "head" && (
        <Dialog trigger="Take out" title={`Take ${code} out`}>
          <Form action={takeOutPart} shop={shop} hidden={hidden} label="Take out">
            <ChoiceField
              name="kind"
              label="What happens to it"
              initial="scrap"
              options={[
                { value: "scrap", label: "Scrapped", detail: "Burred, lost, worn, past its date." },
                { value: "returnToSupplier", label: "Sent back to the supplier" },
              ]}
            />
            {howMuch("How much")}
            {lying.length > 1 && (
              <SelectField
                name="from"
                label="From"
                options={[
                  { value: "", label: "its usual bin first, then the others" },
                  ...lying.map((one) => ({
                    value: chosen(one.bin),
                    label: `${binText(one.bin)}, ${one.text} there`,
                  })),
                ]}
              />
            )}
            <TextField name="why" label="Reason" required />
            <SubmitButton size="act">Take it out</SubmitButton>
          </Form>
        </Dialog>
      )}
      {mayWrite && where === "head" && (
        <Dialog trigger="Receive" triggerTone="main" title={`Receive ${code}`}>
          <Form action={receivePart} shop={shop} hidden={hidden} label="Receive">
            {howMuch("How much came in")}
            {intoBin}
            {withCost && (
              <TextField
                name="unitCost"
                label={`Cost of one, ${currency}`}
                inputMode="decimal"
                mono
                hint="From the delivery note, without tax you get back. Empty: as before."
              />
            )}
            <TextField name="why" label="Delivery" hint="The delivery note's number, if there is one." />
            <DateField name="on" label="Came on" hint="Empty: today." />
            <SubmitButton size="act">Receive</SubmitButton>
          </Form>
        </Dialog>
      )}
    </>
  );
}
