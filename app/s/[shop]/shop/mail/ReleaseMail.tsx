"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { releaseAllMail, releaseMail } from "../actions";

/** Lets one mail of a copy go. */
export function ReleaseMail({ shop, id, subject }: { shop: string; id: number; subject: string }) {
  return (
    <Form action={releaseMail} shop={shop} hidden={{ id: String(id) }} label={`Send ${subject}`}>
      <SubmitButton tone="quiet">Send it from here</SubmitButton>
    </Form>
  );
}

/** Lets all of them go. */
export function ReleaseAllMail({ shop }: { shop: string }) {
  return (
    <Form action={releaseAllMail} shop={shop} label="Send all that are held back">
      <SubmitButton tone="second">Send all of them from here</SubmitButton>
    </Form>
  );
}
