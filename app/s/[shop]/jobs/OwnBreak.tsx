import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { goOn, pause } from "./actions";

/** A break from what one's time runs on. */
export function TakeBreak({ slug, entryId }: { slug: string; entryId: number }) {
  return (
    <Form action={pause} shop={slug} hidden={{ entryId: String(entryId) }} label="Take a break">
      <SubmitButton tone="quiet">Break</SubmitButton>
    </Form>
  );
}

/** The break is over. */
export function GoOn({
  slug,
  of,
}: {
  slug: string;
  of: { readonly id: number; readonly jobNumber: string };
}) {
  return (
    <Form action={goOn} shop={slug} hidden={{ breakId: String(of.id) }} label="End the break">
      <SubmitButton tone="second">Go on with job {of.jobNumber}</SubmitButton>
    </Form>
  );
}
