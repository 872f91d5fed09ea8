import { CheckField } from "@/app/_ui/CheckField";
import { DateField } from "@/app/_ui/DateField";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { dateText, moneyText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { DraftSheet, QuoteSheet } from "@/lib/data/quotes/get";
import {
  saveDeposit,
  saveDiscount,
  saveExtras,
  saveLineDiscount,
  savePromise,
  takeLineOff,
  writeLine,
} from "../actions";

interface Props {
  slug: string;
  quote: QuoteSheet;
  draft: DraftSheet;
  mayMargin: boolean;
}

/** What is agreed on this quote beyond its package: lines by hand, discounts, the deposit, extras to offer. */
export function TermsForms({ slug, quote, draft }: Props) {
  const hidden = { id: String(quote.id), version: String(quote.version) };
  const { currency, locale } = quote.terms;
  const { agreed, price, extras } = draft;
  const given = { slug, hidden, currency };
  return (
    <Section title="Agreed on this quote" className="print:hidden">
      {agreed.lines.length > 0 && (
        <ul className="mb-3">
          {agreed.lines.map((line) => (
            <li key={line.key} className="flex flex-wrap items-baseline gap-x-4 border-hair border-b py-2">
              <span className="min-w-0 flex-1">
                {line.name}
                <span className="block text-[14px] text-soft">
                  {line.kind === "outside" ? "work bought outside" : "written by hand"}
                </span>
              </span>
              <span className="font-mono">{moneyText(line.priceMinor, currency, locale)}</span>
              <Form
                action={takeLineOff}
                shop={slug}
                hidden={{ ...hidden, line: line.key }}
                label={`Take off ${line.name}`}
              >
                <SubmitButton tone="quiet">
                  Take off<span className="sr-only"> {line.name}</span>
                </SubmitButton>
              </Form>
            </li>
          ))}
        </ul>
      )}
      <div className="flex flex-wrap gap-3">
        <Dialog trigger="Add a line" title="A line by hand">
          <LineForm {...given} />
        </Dialog>
        <Dialog
          trigger={`Promised until ${dateText(quote.validUntil, locale)}`}
          title="How long this quote is promised"
        >
          <Form action={savePromise} shop={slug} hidden={hidden} label="Promise">
            <DateField name="validUntil" label="Last day" initial={quote.validUntil} required />
            <SubmitButton>Save the day</SubmitButton>
          </Form>
        </Dialog>
        <Dialog trigger="Discount" title="Discount on the whole">
          <DiscountForm
            {...given}
            draft={draft}
            usual={quote.draft?.price.lines.some((l) => l.kind === "discount") ?? false}
          />
        </Dialog>
        <Dialog trigger="Discount a line" title="Discount on one line">
          <Form action={saveLineDiscount} shop={slug} hidden={hidden} label="Discount on one line">
            <SelectField
              name="line"
              label="Line"
              options={price.lines
                .filter((l) => l.kind !== "discount" && l.kind !== "sundries")
                .map((l) => ({
                  value: l.key,
                  label: `${l.name}, ${moneyText(l.shownMinor, currency, locale)}`,
                }))}
            />
            <TextField
              name="percent"
              label="Percent off"
              hint="Empty or 0 takes it away"
              inputMode="decimal"
              mono
            />
            <TextField name="why" label="Why" maxLength={120} />
            <SubmitButton>Save the discount</SubmitButton>
          </Form>
        </Dialog>
        <Dialog trigger="Deposit" title="Deposit">
          <DepositForm {...given} draft={draft} shopBp={quote.terms.depositBp} />
        </Dialog>
        {extras.length > 0 && (
          <Dialog trigger="Extras to offer" title="Extras to offer">
            <Form action={saveExtras} shop={slug} hidden={hidden} label="Extras to offer">
              <p className="mb-2">
                The customer may tick these when accepting; the total follows on their page.
              </p>
              {extras.map((o) => (
                <CheckField
                  key={o.key}
                  name="extras[]"
                  value={o.key}
                  label={o.name}
                  initial={o.offered}
                  ruled
                />
              ))}
              <SubmitButton className="mt-3">Save the extras</SubmitButton>
            </Form>
          </Dialog>
        )}
      </div>
      {extras.some((o) => o.offered) && (
        <p className="mt-3 text-[15px]">
          Offered as extras:{" "}
          {extras
            .filter((o) => o.offered)
            .map((o) => o.name)
            .join(", ")}
          .
        </p>
      )}
    </Section>
  );
}

interface Given {
  slug: string;
  hidden: Readonly<Record<string, string>>;
  currency: string;
}

function LineForm({ slug, hidden, currency }: Given) {
  return (
    <Form action={writeLine} shop={slug} hidden={hidden} label="A line by hand">
      <SelectField
        name="kind"
        label="What kind"
        options={[
          { value: "outside", label: "Work bought outside" },
          { value: "text", label: "A line of our own, or text" },
        ]}
      />
      <TextField name="name" label="What it is" required maxLength={160} />
      <TextField
        name="price"
        label={`Price, ${currency}`}
        hint="As your prices are shown; empty is text only"
        inputMode="decimal"
        mono
      />
      <TextField
        name="cost"
        label={`What it costs you, ${currency}`}
        hint="Without tax; needed for work bought outside"
        inputMode="decimal"
        mono
      />
      <SubmitButton>Add the line</SubmitButton>
    </Form>
  );
}

function DiscountForm({ slug, hidden, currency, draft }: Given & { draft: DraftSheet; usual: boolean }) {
  const { discount } = draft.agreed;
  return (
    <Form action={saveDiscount} shop={slug} hidden={hidden} label="Discount">
      <SelectField
        name="how"
        label="How"
        initial={discount?.kind ?? "none"}
        options={[
          { value: "none", label: "None besides the customer's own" },
          { value: "percent", label: "Percent, in place of the customer's own" },
          { value: "amount", label: "An amount, on top of the customer's own" },
        ]}
      />
      <TextField
        name="amount"
        label={`How much, in % or ${currency}`}
        initial={discount?.kind === "percent" ? String(discount.bp / 100) : ""}
        inputMode="decimal"
        mono
      />
      <TextField name="why" label="Why" hint="Printed on the quote" initial={discount?.why} maxLength={120} />
      <SubmitButton>Save the discount</SubmitButton>
    </Form>
  );
}

function DepositForm({
  slug,
  hidden,
  currency,
  draft,
  shopBp,
}: Given & { draft: DraftSheet; shopBp: number }) {
  const own = draft.agreed.deposit;
  const how =
    own === null ? "shop" : "amountMinor" in own ? "amount" : own.percentBp === 0 ? "none" : "percent";
  return (
    <Form action={saveDeposit} shop={slug} hidden={hidden} label="Deposit">
      <SelectField
        name="how"
        label="How"
        initial={how}
        options={[
          { value: "shop", label: `As usual, ${shopBp / 100} %` },
          { value: "none", label: "None" },
          { value: "percent", label: "Percent of the total" },
          { value: "amount", label: "An amount" },
        ]}
      />
      <TextField
        name="amount"
        label={`How much, in % or ${currency}`}
        initial={own && "percentBp" in own && own.percentBp > 0 ? String(own.percentBp / 100) : ""}
        inputMode="decimal"
        mono
      />
      <SubmitButton>Save the deposit</SubmitButton>
    </Form>
  );
}
