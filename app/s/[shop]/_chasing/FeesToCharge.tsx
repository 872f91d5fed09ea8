import { Form } from "@/app/_ui/Form";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { OpenFee } from "@/lib/data/chasing/fees";
import { charge } from "../invoices/reminders/actions";

interface Props {
  slug: string;
  draft: { readonly id: number; readonly version: number };
  fees: readonly OpenFee[];
  currency: string;
  locale: string;
}

/** Fees that the customer was asked for with reminders, to be charged on this draft; nothing where there are none. */
export function FeesToCharge({ slug, draft, fees, currency, locale }: Props) {
  if (fees.length === 0) return null;
  const total = fees.reduce((sum, { fee }) => sum + fee.minor, 0);
  const numbers = [...new Set(fees.map(({ invoice }) => invoice.written))];
  return (
    <Section title="Reminder fees">
      <p className="mb-3 max-w-prose">
        <Money minor={total} currency={currency} locale={locale} code /> was asked for with reminders of{" "}
        {numbers.length === 1 ? "invoice" : "invoices"} {numbers.join(", ")} and is not charged yet. Check
        that law and agreement allow it before you charge it.
      </p>
      <Form
        action={charge}
        shop={slug}
        hidden={{ id: String(draft.id), version: String(draft.version) }}
        label="Charge the fees"
      >
        <SubmitButton tone="second">Charge them on this draft</SubmitButton>
      </Form>
    </Section>
  );
}
