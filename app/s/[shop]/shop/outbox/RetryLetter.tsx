"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { retryLetter } from "../actions";

export function RetryLetter({ shop, id, subject }: { shop: string; id: number; subject: string }) {
  return (
    <Form action={retryLetter} shop={shop} hidden={{ id: String(id) }} label={`Try ${subject} again`}>
      <SubmitButton tone="quiet">Try again now</SubmitButton>
    </Form>
  );
}
