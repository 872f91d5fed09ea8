"use client";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { putMoveRight } from "../actions";

/** A wrong move stays; another one of the difference is written beside it, with its date. */
export function PutRight({
  shop,
  code,
  unit,
  moves,
}: {
  shop: string;
  code: string;
  unit: string;
  moves: readonly { id: number; label: string }[];
}) {
  return (
    <Dialog trigger="Put a move right" triggerTone="quiet" title={`Put a move of ${code} right`}>
      <Form action={putMoveRight} shop={shop} label="Put a move right">
        <SelectField
          name="moveId"
          label="Which move is wrong"
          options={moves.map((move) => ({ value: String(move.id), label: move.label }))}
        />
        <NumberField
          name="right"
          label="It should have been"
          unit={unit === "each" ? undefined : unit}
          min={0}
          required
          hint="Without a sign; 0 when it never happened. The move stays, a new one of the difference is written on its day."
        />
        <TextField name="why" label="Reason" required />
        <SubmitButton size="act">Write the new move</SubmitButton>
      </Form>
    </Dialog>
  );
}
