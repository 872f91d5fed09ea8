"use client";
import { CheckField } from "@/app/_ui/CheckField";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { binText } from "@/lib/domain/stock/bins";
import { moveBack, moveToBin } from "../actions";

export interface MoveBetweenProps {
  shop: string;
  partId: number;
  version: number;
  code: string;
  /** Nothing for pieces. */
  unit: string | undefined;
  /** Where it lies, the usual bin first, with how much there is as it is typed and as it is read. */
  lying: readonly { bin: string; typed: string; text: string }[];
  /** The bins in use. */
  bins: readonly string[];
}

/** Some of a part, or all of it, from one bin to another. */
export function MoveBetween({ shop, partId, version, code, unit, lying, bins }: MoveBetweenProps) {
  const [first] = lying;
  if (!first) return null;
  const only = lying.length === 1;
  const others = bins.filter((bin) => !only || bin !== first.bin);
  const hidden = { partId: String(partId), version: String(version), ...(only ? { from: first.bin } : {}) };
  return (
    <Dialog trigger="Move to another bin" title={`Move ${code} to another bin`}>
      <Form action={moveToBin} undo={moveBack} shop={shop} hidden={hidden} label="Move to another bin">
        {only ? null : (
          <SelectField
            name="from"
            label="From"
            initial={first.bin}
            options={lying.map((one) => ({
              value: one.bin,
              label: `${binText(one.bin)}, ${one.text} there`,
            }))}
          />
        )}
        <NumberField
          name="quantity"
          label="How much"
          unit={unit}
          min={0}
          initial={first.typed}
          required
          hint={only ? `All that lies in ${binText(first.bin)}, unless you say less.` : undefined}
        />
        {others.length > 0 && (
          <SelectField
            name="to"
            label="To bin"
            options={[
              { value: "", label: "choose, or name another below" },
              ...others.map((bin) => ({ value: bin, label: bin })),
            ]}
          />
        )}
        <TextField
          name="newBin"
          label={others.length > 0 ? "Another bin" : "To bin"}
          mono
          hint="What is written on it. A name not used before is a new bin."
        />
        <CheckField
          name="home"
          value="true"
          label="Make it the usual bin"
          detail="What is received and returned goes there from now on."
        />
        <SubmitButton size="act">Move it</SubmitButton>
      </Form>
    </Dialog>
  );
}
