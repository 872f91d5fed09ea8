"use client";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { releaseMail } from "../actions";

/** Lets one mail of a copy go, or all that are held back. */
export function ReleaseMail({ shop, id, subject }: { shop: string; id?: number; subject?: string }) {
  return (
    <Form
      action={releaseMail}
      shop={shop}
      {...(id === undefined ? {} : { hidden: { id: String(id) } })}
      label={subject ? `Send ${subject}` : "Send all that are held back"}
    >
      <SubmitButton tone="quiet">{subject ? "Send it from here" : "Send all of them from here"}</SubmitButton>
    </Form>
  );
}
