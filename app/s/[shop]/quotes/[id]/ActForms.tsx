import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { decline, replace, takeDraftOut } from "../actions";
import type { PackageOffer } from "../PackageChoice";

interface Props {
  slug: string;
  /** The quote's id and version. */
  hidden: Readonly<Record<string, string>>;
}

/** Takes out a draft that was begun by mistake. */
export function RemoveForm({ slug, hidden }: Props) {
  return (
    <Form action={takeDraftOut} shop={slug} hidden={hidden} label="Remove">
      <p className="mb-3">For a draft begun by mistake. Its number is not given to another quote.</p>
      <SubmitButton tone="danger">Remove</SubmitButton>
    </Form>
  );
}

/** Writes down that the customer said no. */
export function DeclineForm({ slug, hidden }: Props) {
  return (
    <Form action={decline} shop={slug} hidden={hidden} label="Declined">
      <TextArea name="reason" label="Why, in their words" rows={3} />
      <SubmitButton>Write it down</SubmitButton>
    </Form>
  );
}

/** Puts another package in place of the whole quote. */
export function ReplaceForm({ slug, hidden, packages }: Props & { packages: readonly PackageOffer[] }) {
  return (
    <Form action={replace} shop={slug} hidden={hidden} label="Another package">
      <p className="mb-3">
        A new quote for the same bike. This one is kept as replaced; its link no longer opens.
      </p>
      <ChoiceField
        name="packageId"
        label="Package"
        options={packages.map((p) => ({ value: String(p.id), label: p.name, detail: p.summary }))}
      />
      <SubmitButton>Start the new quote</SubmitButton>
    </Form>
  );
}
