import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { Money } from "@/app/_ui/Money";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { DraftSide } from "@/lib/data/invoices/draftSides";
import type { TypedInvoiceLine } from "@/lib/domain/invoices/edits";
import { marksOf } from "@/lib/domain/money/format";
import { priceText } from "@/lib/domain/money/scale";
import { ADDED_KIND_WORDS, ADDED_KINDS } from "@/lib/schemas/invoiceEdits";
import { TAX_MARK_WORDS } from "@/lib/schemas/partWords";
import { quantityText } from "@/lib/schemas/quantity";
import { addDraftLine, changeDraftLine } from "../actions";

interface Seen {
  slug: string;
  seen: Readonly<Record<string, string>>;
  currency: string;
}

/** One line: as agreed, as worked, typed anew, or taken off, with why. */
export function ChangeLine({
  slug,
  seen,
  currency,
  locale,
  side,
}: Seen & { locale: string; side: DraftSide }) {
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} />;
  const added = side.edit?.act === "add";
  const choices = [
    ...(side.agreedMinor === null
      ? []
      : [{ value: "fixed", label: <>As agreed: {money(side.agreedMinor)}</> }]),
    ...(side.workedMinor === null
      ? []
      : [{ value: "asWorked", label: <>As worked: {money(side.workedMinor)}</> }]),
    ...(side.typed ? [{ value: "change", label: "As typed below" }] : []),
    ...(added ? [] : [{ value: "off", label: "Not at all: take it off" }]),
  ];
  return (
    <Dialog
      trigger={
        <>
          Change<span className="sr-only"> {side.name}</span>
        </>
      }
      triggerTone="quiet"
      title={side.name}
    >
      <Form
        action={changeDraftLine}
        shop={slug}
        hidden={{ ...seen, key: side.key }}
        label={`Change ${side.name}`}
      >
        <ChoiceField
          name="act"
          label="Charge it"
          initial={side.edit && !added ? side.edit.act : side.typed ? "change" : choices[0]?.value}
          options={choices}
        />
        {side.typed && <LineFields typed={side.typed} currency={currency} locale={locale} />}
        <TextField name="reason" label="Why (kept, not printed)" maxLength={200} required />
        <SubmitButton>Change the line</SubmitButton>
      </Form>
    </Dialog>
  );
}

/** A line that neither basis has. */
export function AddLine({
  slug,
  seen,
  currency,
  jobs,
}: Seen & { jobs: readonly { id: number; number: string; title: string }[] }) {
  return (
    <Dialog trigger="Add a line" triggerTone="quiet" title="Add a line">
      <Form action={addDraftLine} shop={slug} hidden={seen} label="Add a line">
        {jobs.length > 1 && (
          <SelectField
            name="jobId"
            label="Of which job"
            initial={String(jobs[0]?.id)}
            options={jobs.map((job) => ({ value: String(job.id), label: `${job.number}, ${job.title}` }))}
          />
        )}
        <SelectField
          name="kind"
          label="What it is"
          initial="fixed"
          options={ADDED_KINDS.map((value) => ({ value, label: ADDED_KIND_WORDS[value] }))}
        />
        <TextField name="name" label="Text (printed)" maxLength={160} required />
        <TextField
          name="part"
          label="Part from stock, by its code"
          hint="It is taken from stock as the invoice is issued. Empty for none."
          mono
          maxLength={40}
        />
        <TextField name="quantity" label="How many, or minutes" inputMode="decimal" mono initial="1" />
        <TextField
          name="price"
          label={`Price of one, of an hour for work, ${currency}`}
          hint="Of what is on the whole: the amount, or a share below."
          inputMode="decimal"
          mono
        />
        <TextField
          name="discount"
          label="% off"
          hint="Of what is on the whole: so much of the lines that are taxed as it is."
          inputMode="decimal"
          mono
        />
        <TaxField initial="" />
        <TextField name="reason" label="Why (kept, not printed)" maxLength={200} required />
        <SubmitButton>Add the line</SubmitButton>
      </Form>
    </Dialog>
  );
}

function LineFields({
  typed,
  currency,
  locale,
}: {
  typed: TypedInvoiceLine;
  currency: string;
  locale: string;
}) {
  const { decimal } = marksOf(locale);
  const shown = (text: string) => text.replace(".", decimal);
  const work = typed.kind === "labour";
  const text = <TextField name="name" label="Text (printed)" maxLength={160} initial={typed.name} />;
  const price = (label: string) => (
    <TextField
      name="price"
      label={`${label}, ${currency}`}
      inputMode="decimal"
      mono
      initial={shown(priceText(typed.unitPriceE4, currency))}
    />
  );
  const share = (label: string) => (
    <TextField
      name="discount"
      label={label}
      inputMode="decimal"
      mono
      initial={typed.discountBp > 0 ? shown(String(typed.discountBp / 100)) : ""}
    />
  );
  if (typed.kind === "discount")
    return (
      <>
        {text}
        <input type="hidden" name="taxMark" value={typed.taxMark} />
        {typed.discountBp > 0 ? (
          <>
            <input type="hidden" name="price" value="0" />
            {share("% of the lines that are taxed as it is")}
          </>
        ) : (
          price(typed.adds ? "Amount added" : "Amount taken off")
        )}
      </>
    );
  return (
    <>
      {text}
      <TextField
        name="quantity"
        label={work ? "Minutes" : typed.unit === "each" ? "How many" : `How much, ${typed.unit}`}
        inputMode="decimal"
        mono
        initial={shown(quantityText(typed.quantityMilli, "each"))}
      />
      {price(work ? "Price of an hour" : "Price of one")}
      {share("% off")}
      <TaxField initial={typed.taxMark} />
    </>
  );
}

const TaxField = ({ initial }: { initial: string }) => (
  <SelectField
    name="taxMark"
    label="Tax"
    initial={initial}
    options={Object.entries(TAX_MARK_WORDS).map(([value, label]) => ({ value, label }))}
  />
);
