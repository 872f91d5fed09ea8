import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { countryKeeping, MOST_KEEP_YEARS } from "@/lib/domain/invoices/keeping";
import type { OpenShop } from "@/lib/gate/open";
import { saveKeepYears } from "../actions";

/** For how long documents of customers who were erased still name them. */
export function Keeping({ shop }: { shop: OpenShop }) {
  const { country, keepYears } = shop.settings;
  const rule = countryKeeping(country);
  return (
    <Section title="Documents of erased customers" className="mt-8 max-w-[760px]">
      <Form action={saveKeepYears} shop={shop.slug} label="Documents of erased customers">
        <NumberField
          name="years"
          label="Kept whole after their accounting year"
          unit="years"
          initial={keepYears ?? ""}
          min={rule.known ? rule.years : 1}
          max={MOST_KEEP_YEARS}
          hint={`Blank: ${rule.years} years. ${rule.source}. After that the server takes name, address and numbers out of them by itself; sums and tax stay.`}
        />
        <SubmitButton tone="second">Save</SubmitButton>
      </Form>
    </Section>
  );
}
