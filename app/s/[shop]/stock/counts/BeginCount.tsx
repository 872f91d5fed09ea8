"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
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
