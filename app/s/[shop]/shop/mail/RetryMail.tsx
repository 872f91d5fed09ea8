"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { sendMailAgain } from "../actions";

export function RetryMail({ shop, id, subject }: { shop: string; id: number; subject: string }) {
  return (
    <Form action={sendMailAgain} shop={shop} hidden={{ id: String(id) }} label={`Try ${subject} again`}>
      <SubmitButton tone="quiet">Try again now</SubmitButton>
    </Form>
  );
}
