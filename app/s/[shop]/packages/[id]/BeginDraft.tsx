import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { begin } from "../actions";

/** Begins the draft of a package, as a copy of what is published. */
export function BeginDraft({ slug, packageId }: { slug: string; packageId: number }) {
  return (
    <Form action={begin} shop={slug} hidden={{ packageId: String(packageId) }} label="New revision">
      <SubmitButton>New revision</SubmitButton>
    </Form>
  );
}
