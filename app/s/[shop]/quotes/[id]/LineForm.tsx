import { CodeField } from "@/app/_ui/CodeField";
import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { TAX_MARK_WORDS } from "@/lib/schemas/partWords";
import { writeLine } from "../actions";
import type { Given } from "./given";

/** A line of the shop's own: work bought outside, a price, or text. */
export function LineForm({ slug, hidden, currency }: Given) {
  return (
    <Form action={writeLine} shop={slug} hidden={hidden} label="A line by hand">
      <SelectField
        name="kind"
        label="What kind"
        options={[
          { value: "outside", label: "Work bought outside" },
          { value: "text", label: "A line of our own, or text" },
          { value: "part", label: "A part from stock" },
        ]}
      />
      <CodeField
        shop={slug}
        from="parts"
        name="part"
        label="Part"
        hint="For a part from stock: it is reserved for the job"
      />
      <TextField name="name" label="What it is" hint="Empty for a part: its own name" maxLength={160} />
      <div className="grid grid-cols-2 gap-x-4">
        <TextField name="quantity" label="How many" initial="1" inputMode="decimal" mono />
        <TextField name="unit" label="Unit" hint="Empty: pieces" maxLength={20} />
      </div>
      <TextField
        name="price"
        label={`Price of one, ${currency}`}
        hint="As your prices are shown; empty is text only, for a part its own price"
        inputMode="decimal"
        mono
      />
      <TextField
        name="cost"
        label={`What one costs you, ${currency}`}
        hint="Without tax; needed for work bought outside"
        inputMode="decimal"
        mono
      />
      <SelectField
        name="taxMark"
        label="Tax"
        options={Object.entries(TAX_MARK_WORDS).map(([value, label]) => ({ value, label }))}
      />
      <SubmitButton>Add the line</SubmitButton>
    </Form>
  );
}
