import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { inCompanyRegister } from "@/lib/data/shop/taxTerms";
import { sellerNumber } from "@/lib/documents/sellerNumber";
import { saidOfNumber, sellerNumberRule } from "@/lib/domain/tax/sellerNumber";
import type { OpenShop } from "@/lib/gate/open";
import { paperWords } from "@/lib/words/papers";
import { sayRegistered } from "../actions";

/** How papers give the shop's number, what the law wants after it, and whether the shop is in its country's register of companies. */
export async function OnPapers({ shop }: { shop: OpenShop }) {
  const { taxNumber, taxRegime, country, locale } = shop.settings;
  const rule = sellerNumberRule(taxRegime, country);
  const registered = await inCompanyRegister(shop.read);
  const printed = sellerNumber(
    { taxNumber, ...saidOfNumber(taxRegime, country, registered) },
    paperWords(locale),
  );
  const { ofRegime, ofCompany } = rule;
  if (!printed && !ofCompany) return null;
  return (
    <Section title="Your number on papers" className="mt-8 max-w-[760px]">
      {printed && (
        <p>
          Papers say: <span className="font-mono">{printed}</span>
        </p>
      )}
      {ofRegime && (
        <p className="text-[15px] text-soft">
          {ofRegime.text}: {ofRegime.source}.
        </p>
      )}
      {ofCompany && (
        <Form action={sayRegistered} shop={shop.slug} label="Your number on papers">
          <CheckField
            name="inCompanyRegister"
            label={ofCompany.question}
            detail={`Papers then say ${ofCompany.text}. ${ofCompany.source}.`}
            initial={registered}
          />
          <SubmitButton tone="second">Save what papers say</SubmitButton>
        </Form>
      )}
    </Section>
  );
}
