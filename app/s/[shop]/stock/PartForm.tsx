"use client";
import { CheckField } from "@/app/_ui/CheckField";
import { CodeField } from "@/app/_ui/CodeField";
import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Suggestions } from "@/app/_ui/Suggestions";
import { TextField } from "@/app/_ui/TextField";
import { CONVENTION_WORDS, CONVENTIONS, PART_KINDS, TAX_MARK_WORDS } from "@/lib/schemas/partWords";
import { PART_UNITS } from "@/lib/schemas/quantity";
import { addPart, savePart } from "./actions";

export interface PartValues {
  id: number;
  version: number;
  active: boolean;
  code: string;
  name: string;
  kind: string;
  unit: string;
  family: string;
  size: string;
  convention: string;
  supplier: string;
  supplierCode: string;
  bin: string;
  /** How much lies where; empty where none does. */
  onHand: string;
  leadDays: string;
  cost: string;
  price: string;
  priceUntil: string;
  taxMark: string;
  point: string;
  top: string;
  replacedBy: string;
}

export interface PartFormProps {
  shop: string;
  currency: string;
  /** Nothing for a new part. */
  part?: PartValues | undefined;
  /** A new part's code, where a quote or a package names it already. */
  code?: string | undefined;
  families: readonly string[];
  /** Bins in use, to choose from. */
  bins: readonly string[];
  /** Costs are for those who may see margins. */
  withCost: boolean;
}

export function PartForm({ shop, currency, part, code, families, bins, withCost }: PartFormProps) {
  const hidden = part ? { id: String(part.id), version: String(part.version) } : undefined;
  const grid = "grid gap-x-5 sm:grid-cols-2 lg:grid-cols-3";
  return (
    <Form
      action={part ? savePart : addPart}
      shop={shop}
      hidden={hidden}
      label={part ? `Change ${part.code}` : "Add a part"}
    >
      <Suggestions id="bins" values={bins} />
      <Suggestions id="families" values={families} />
      <Section title="What it is">
        <div className={grid}>
          <TextField
            name="code"
            label="Code"
            initial={part?.code ?? code}
            required
            mono
            hint="As on its bag or bin. Two parts never share one."
          />
          <TextField name="name" label="Name" initial={part?.name} required />
          <SelectField
            name="kind"
            label="Kind"
            initial={part?.kind ?? "jet"}
            options={PART_KINDS.map((value) => ({ value, label: value }))}
          />
          <SelectField
            name="unit"
            label="Counted in"
            initial={part?.unit ?? "each"}
            options={PART_UNITS.map((value) => ({ value, label: value === "each" ? "pieces" : value }))}
          />
          <TextField
            name="family"
            label="Family"
            initial={part?.family}
            list="families"
            hint="The drawer it lies in; empty for none."
          />
          <NumberField
            name="size"
            label="Size"
            initial={part?.size}
            step={2.5}
            hint="Its number within the family."
          />
          <SelectField
            name="convention"
            label="Its size is"
            initial={part?.convention ?? ""}
            options={CONVENTIONS.map((value) => ({ value, label: CONVENTION_WORDS[value] }))}
            hint="Across these, sizes compare by their flow only, and roughly."
          />
        </div>
      </Section>
      <Section title="Where it comes from and lies">
        <div className={grid}>
          <TextField name="supplier" label="Supplier" initial={part?.supplier} />
          <TextField name="supplierCode" label="Supplier's code" initial={part?.supplierCode} mono />
          <NumberField
            name="leadDays"
            label="Days to arrive"
            initial={part?.leadDays}
            min={0}
            hint="Bookings wait this long for it."
          />
          <div>
            <TextField
              name="bin"
              label="Bin"
              initial={part?.bin}
              list="bins"
              mono
              hint={part ? "Its usual one. What lies elsewhere stays there." : undefined}
            />
            {part?.onHand && (
              <CheckField
                name="moveAll"
                value="true"
                label="Move it all there"
                detail={`Into the bin above: ${part.onHand}.`}
              />
            )}
          </div>
          <NumberField
            name="point"
            label="Order point"
            initial={part?.point}
            min={0}
            hint="Free stock under this is below its point."
          />
          <NumberField
            name="top"
            label="Fill up to"
            initial={part?.top}
            min={0}
            hint="Orders fill it to this. Empty: by its use."
          />
          <CodeField
            shop={shop}
            from="parts"
            name="replacedBy"
            label="Made no more: replaced by"
            initial={part?.replacedBy}
            hint="Code of the part that is made now. What is left of this one is used first."
          />
          {!part && (
            <NumberField name="opening" label="On hand now" min={0} hint="The first move of its ledger." />
          )}
        </div>
      </Section>
      <Section title={`Money, ${currency} for one`}>
        <div className={grid}>
          {withCost && (
            <TextField name="cost" label="List cost" initial={part?.cost} inputMode="decimal" mono />
          )}
          <TextField
            name="price"
            label="Price"
            initial={part?.price}
            inputMode="decimal"
            mono
            hint="Empty: cost and the markup of its band."
          />
          <SelectField
            name="taxMark"
            label="Tax"
            initial={part?.taxMark ?? ""}
            options={Object.entries(TAX_MARK_WORDS).map(([value, label]) => ({ value, label }))}
            hint="As your accountant says; most parts are taxed as usual."
          />
          <DateField
            name="priceUntil"
            label="Price good until"
            initial={part?.priceUntil}
            hint="Quotes that are valid for longer say so. Empty: no end is known."
          />
        </div>
      </Section>
      {part && (
        <CheckField
          name="active"
          value="true"
          initial={part.active}
          label="In use"
          detail="Take the tick away to put the part away; it must be empty."
        />
      )}
      <div className="mt-5">
        <SubmitButton size="act">{part ? "Save" : "Add the part"}</SubmitButton>
      </div>
    </Form>
  );
}
