"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Suggestions } from "@/app/_ui/Suggestions";
import { TextField } from "@/app/_ui/TextField";
import { beginCount } from "../actions";

export function BeginCount({ shop, bin }: { shop: string; bin: string }) {
  return (
    <Form action={beginCount} shop={shop} hidden={{ bin }} label={`Count bin ${bin}`}>
      <SubmitButton tone="quiet">
        Count<span className="sr-only"> bin {bin}</span>
      </SubmitButton>
    </Form>
  );
}

/** Standing before a bin: what is written on it, instead of a search down the list. */
export function BeginNamed({ shop, bins }: { shop: string; bins: readonly string[] }) {
  return (
    <Form action={beginCount} shop={shop} label="Count the bin you stand before" className="mb-4 max-w-96">
      <Suggestions id="bins" values={bins} />
      <TextField name="bin" label="The bin you stand before" list="bins" mono maxLength={30} />
      <SubmitButton size="act">Count it</SubmitButton>
    </Form>
  );
}
