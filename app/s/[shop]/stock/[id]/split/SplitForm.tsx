"use client";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { openAssortment } from "../../actions";

export interface SplitFormProps {
  shop: string;
  partId: number;
  unit: string;
  sizes: readonly { partId: number; code: string; name: string }[];
}

/** How many assortments are opened, and how many of each size were in them. */
export function SplitForm({ shop, partId, unit, sizes }: SplitFormProps) {
  return (
    <Form action={openAssortment} shop={shop} hidden={{ partId: String(partId) }} label="Open an assortment">
      <NumberField
        name="quantity"
        label="How many are opened"
        initial={1}
        min={0}
        unit={unit === "each" ? undefined : unit}
        required
      />
      <Section title="What was in it, in all">
        <div className="grid grid-cols-2 gap-x-5 lg:grid-cols-3">
          {sizes.map((size) => (
            <NumberField
              key={size.partId}
              name={`into.${size.partId}`}
              label={size.code}
              hint={<span className="max-sm:hidden">{size.name}</span>}
              min={0}
            />
          ))}
        </div>
      </Section>
      <SubmitButton size="act">Open it</SubmitButton>
    </Form>
  );
}
