"use client";
import { Form } from "@/app/_ui/Form";
import { Note } from "@/app/_ui/Note";
import { NumberField } from "@/app/_ui/NumberField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { addFound, dropBinCount, enterBinCount } from "../../actions";

export interface BlindFormProps {
  shop: string;
  sheetId: number;
  version: number;
  lines: readonly { partId: number; code: string; name: string; unit: string }[];
}

/** Every part of a bin with room for a number: what should be there is not shown. */
export function BlindForm({ shop, sheetId, version, lines }: BlindFormProps) {
  const hidden = { sheetId: String(sheetId), version: String(version) };
  return (
    <div className="max-w-[40rem]">
      <Note>Count what lies there. 0 where there is none; empty where you have not looked.</Note>
      <Form action={enterBinCount} shop={shop} hidden={hidden} label="Count the bin">
        {lines.map((line) => (
          <NumberField
            key={line.partId}
            name={`counted.${line.partId}`}
            label={
              <>
                <span className="font-mono">{line.code}</span> {line.name}
              </>
            }
            unit={line.unit === "each" ? undefined : line.unit}
            min={0}
          />
        ))}
        <SubmitButton size="act">Counted</SubmitButton>
      </Form>
      <Form
        action={addFound}
        shop={shop}
        hidden={{ sheetId: String(sheetId) }}
        label="Add what you found"
        className="mt-6"
      >
        <TextField
          name="code"
          label="Something lies there that is not listed"
          mono
          hint="What its label or bag says. It is put on the list, and what you have entered stays."
        />
        <SubmitButton tone="second">Add it to the count</SubmitButton>
      </Form>
      <Form action={dropBinCount} shop={shop} hidden={hidden} label="Give the count up" className="mt-4">
        <SubmitButton tone="quiet">Give the count up</SubmitButton>
      </Form>
    </div>
  );
}
