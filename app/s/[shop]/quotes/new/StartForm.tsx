import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { startQuote } from "../actions";
import { PackageChoice, type PackageOffer } from "../PackageChoice";

interface Props {
  slug: string;
  hidden: Record<string, string>;
  packages: readonly PackageOffer[];
  /** What the finding says that a variation answers. */
  title: string;
}

/** How a quote begins: from a package, or with nothing on it yet. */
export function StartForm({ slug, hidden, packages, title }: Props) {
  return (
    <div className="grid max-w-[64rem] gap-x-8 md:grid-cols-2">
      {packages.length > 0 && (
        <Section title="From a package">
          <Form action={startQuote} shop={slug} hidden={hidden} label="New quote">
            <PackageChoice packages={packages} />
            <SubmitButton>Start the quote</SubmitButton>
          </Form>
        </Section>
      )}
      <Section title="Without a package">
        <Form action={startQuote} shop={slug} hidden={hidden} label="New quote without a package">
          <TextField
            name="title"
            label="Title"
            hint="As the customer reads it. Empty: the name of the first work."
            initial={title}
            maxLength={120}
          />
          <SubmitButton tone="second">Start without a package</SubmitButton>
        </Form>
      </Section>
    </div>
  );
}
