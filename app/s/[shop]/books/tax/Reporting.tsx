import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { taxTermsOf } from "@/lib/data/shop/taxTerms";
import { depositsRule } from "@/lib/domain/taxReport/deposits";
import { STRETCH_WORDS, STRETCHES } from "@/lib/schemas/tax";
import { reportTax } from "./actions";
import { BASIS_OPTIONS } from "./Stretch";

interface Props {
  slug: string;
  regime: string;
  terms: Awaited<ReturnType<typeof taxTermsOf>>;
}

const DUE = { received: "as they come", invoiced: "with the invoice that takes them off" } as const;

/** How the shop reports: what the page begins with, and when tax in deposits falls due. */
export function Reporting({ slug, regime, terms }: Props) {
  const rule = depositsRule(regime);
  return (
    <Section title="How you report" className="mt-8 max-w-[760px] print:hidden">
      <p className="mb-3 max-w-prose text-[15px] text-soft">
        Confirm all three with your accountant. Nothing that was issued or paid changes by it.
      </p>
      <Form action={reportTax} shop={slug} label="How you report">
        <SelectField name="basis" label="Counts" initial={terms.basis} options={BASIS_OPTIONS} />
        <SelectField
          name="periodMonths"
          label="A period is"
          initial={String(terms.periodMonths)}
          options={STRETCHES.filter((one) => one !== "own").map((value) => ({
            value,
            label: STRETCH_WORDS[value],
          }))}
        />
        <ChoiceField
          name="depositsDue"
          label="Tax in deposits falls due"
          initial={terms.chosen}
          options={[
            { value: "", label: `As your regime has it: ${DUE[rule.due]}`, detail: `${rule.source}.` },
            { value: "received", label: "As they come" },
            { value: "invoiced", label: "With the invoice that takes them off" },
          ]}
        />
        <SubmitButton tone="second">Save how you report</SubmitButton>
      </Form>
    </Section>
  );
}
