import { CheckField } from "@/app/_ui/CheckField";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { KeepMine } from "@/app/_ui/KeepMine";
import { LinkButton } from "@/app/_ui/LinkButton";
import { NumberField } from "@/app/_ui/NumberField";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { LANGUAGE_NAMES, LANGUAGES } from "@/lib/words/language";
import { saveCustomer } from "./actions";

export interface CustomerValues {
  readonly id: number;
  readonly version: number;
  readonly name: string;
  readonly email: string;
  readonly phone: string;
  readonly address: string;
  readonly business: boolean;
  readonly taxNumber: string;
  readonly language: string;
  readonly noLetters: boolean;
  readonly discountBp: number;
  readonly discountClass: string;
  readonly notes: string;
}

/** A new customer, or a change of one. */
export function CustomerForm({ shop, customer }: { shop: string; customer?: CustomerValues }) {
  const hidden = customer ? { id: String(customer.id), version: String(customer.version) } : undefined;
  const back = `/s/${shop}/customers${customer ? `/${customer.id}` : ""}`;
  return (
    <Form
      action={saveCustomer}
      shop={shop}
      hidden={hidden}
      label={customer ? "Change the customer" : "New customer"}
      className="max-w-[760px]"
    >
      <Section title="Who">
        <TextField name="name" label="Name" initial={customer?.name} required maxLength={120} />
        <div className="grid gap-x-5 sm:grid-cols-2">
          <TextField name="phone" label="Phone" type="tel" initial={customer?.phone} mono />
          <TextField
            name="email"
            label="E-mail"
            type="email"
            initial={customer?.email}
            hint="Quotes and confirmations go here."
          />
        </div>
        <TextArea name="address" label="Address" rows={3} initial={customer?.address} />
        <ChoiceField
          name="language"
          label="Language of their mails, pages and papers"
          initial={customer?.language ?? ""}
          options={[
            { value: "", label: "The shop's" },
            ...LANGUAGES.map((language) => ({ value: language, label: LANGUAGE_NAMES[language] })),
          ]}
        />
        <CheckField
          name="noLetters"
          label="No letters"
          initial={customer?.noLetters}
          detail="Nothing is mailed to them. Where a letter would have gone it says what to do instead."
        />
      </Section>
      <Section title="Money">
        <CheckField name="business" label="A business" initial={customer?.business} />
        <div className="grid gap-x-5 sm:grid-cols-2">
          <TextField name="taxNumber" label="Tax number" initial={customer?.taxNumber} mono />
          <NumberField
            name="discountPercent"
            label="Discount on every quote"
            unit="%"
            step={2.5}
            min={0}
            max={100}
            initial={customer?.discountBp ? customer.discountBp / 100 : undefined}
          />
          <TextField
            name="discountClass"
            label="The discount's name"
            initial={customer?.discountClass}
            hint="Printed beside it, such as Club member."
          />
        </div>
      </Section>
      <Section title="Notes">
        <TextArea name="notes" label="For the shop only" initial={customer?.notes} />
      </Section>
      <KeepMine />
      <div className="flex flex-wrap items-center gap-3">
        <SubmitButton size="act">{customer ? "Save" : "Add the customer"}</SubmitButton>
        <LinkButton href={back} tone="quiet">
          Leave it
        </LinkButton>
      </div>
    </Form>
  );
}
