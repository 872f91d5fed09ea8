import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { moneyText } from "@/app/_ui/moneyText";
import { Note } from "@/app/_ui/Note";
import { NumberField } from "@/app/_ui/NumberField";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { letterOfLevel } from "@/lib/data/chasing/reminderLetter";
import { reminderTerms } from "@/lib/data/chasing/terms";
import { open } from "@/lib/gate/open";
import { TAX_MARK_WORDS } from "@/lib/schemas/partWords";
import { saveTerms } from "./actions";

const TITLES = { 1: "First reminder", 2: "Second reminder", 3: "Last reminder" } as const;

/** When late invoices are reminded of, what is asked for it, and whether any of it is done unasked. */
export default async function ReminderTermsPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.write", slug);
  const terms = await reminderTerms(shop.read);
  const { currency, locale } = shop.settings;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Reminders"
        sub="When late invoices are reminded of, in up to three steps. Nothing is sent unasked unless you tick it."
      />
      <Form
        key={terms.version}
        action={saveTerms}
        shop={slug}
        hidden={{ version: String(terms.version) }}
        label="Reminders"
        className="max-w-xl"
      >
        {terms.levels.map(({ level, days, feeMinor, automatic }) => (
          <Section
            key={level}
            title={TITLES[level]}
            aside={
              <LinkButton tone="quiet" href={`/s/${slug}/shop/letters/${letterOfLevel(level)}`}>
                Its words
                <span className="sr-only">, {TITLES[level]}</span>
              </LinkButton>
            }
          >
            <NumberField
              name={`days${level}`}
              label="After it was due"
              unit="days"
              min={1}
              max={365}
              initial={days ?? undefined}
              hint="Empty: this one is not written."
            />
            <TextField
              name={`fee${level}`}
              label={`Fee, ${currency}`}
              inputMode="decimal"
              mono
              initial={feeMinor > 0 ? moneyText(feeMinor, currency, locale) : ""}
              hint="Empty: none."
            />
            <CheckField
              name={`automatic${level}`}
              label="Written by itself"
              initial={automatic}
              detail="Else it stands on Today, and somebody looks at it and sends it."
            />
          </Section>
        ))}
        <Section title="Fees">
          <Note title="Check before you charge.">
            Whether you may ask for a fee or for interest, how much, and when, is a matter of local law and of
            what was agreed. Interest is not computed here.
          </Note>
          <p className="mb-3 max-w-prose">
            A fee is asked for on the reminder. The invoice is issued and stays as it is: the fee is charged
            as a line of the customer's next invoice, where its draft offers it, or waived. What a customer
            pays over an invoice for it is kept as the balance, and comes off that next invoice.
          </p>
          <SelectField
            name="feeTaxMark"
            label="Tax on a fee"
            initial={terms.feeTaxMark}
            hint="Not every country leaves such a fee untaxed: confirm it with your accountant. It is entered as your prices are, with or without tax."
            options={Object.entries(TAX_MARK_WORDS).map(([value, label]) => ({ value, label }))}
          />
        </Section>
        <SubmitButton>Save</SubmitButton>
      </Form>
    </>
  );
}
