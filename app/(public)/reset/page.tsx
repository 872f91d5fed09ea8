import type { Metadata } from "next";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { askForReset } from "../actions";

export const metadata: Metadata = { title: "Forgotten password" };

export default function Reset() {
  return (
    <div className="mx-auto max-w-[420px]">
      <PageHead title="Forgotten password" />
      <Form action={askForReset} label="Ask for a new password" className="grid gap-4">
        <TextField name="email" label="Email" type="email" autoComplete="username" required />
        <SubmitButton>Send me a link</SubmitButton>
      </Form>
    </div>
  );
}
