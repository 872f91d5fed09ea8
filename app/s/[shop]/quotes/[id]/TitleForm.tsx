import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { saveTitle } from "../actions";
import type { Given } from "./given";

/** What the quote is called. */
export function TitleForm({ slug, hidden, title }: Given & { title: string }) {
  return (
    <Form action={saveTitle} shop={slug} hidden={hidden} label="Title">
      <TextField
        name="title"
        label="Title"
        hint="The customer reads it, and the job takes it over."
        initial={title}
        required
        maxLength={120}
      />
      <SubmitButton>Save the title</SubmitButton>
    </Form>
  );
}
