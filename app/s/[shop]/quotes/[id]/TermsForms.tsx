import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { dateText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { DraftView } from "@/lib/data/quotes/draftView";
import type { QuotePage } from "@/lib/data/quotes/get";
import { saveTitle } from "../actions";
import { DepositForm } from "./DepositForm";
import { DiscountForm, LineDiscountForm } from "./DiscountForms";
import { ExtrasForm } from "./ExtrasForm";
import { HandLines } from "./HandLines";
import { LineForm } from "./LineForm";
import { ValidUntilForm } from "./ValidUntilForm";

interface Props {
  slug: string;
  quote: QuotePage;
  draft: DraftView;
}

/** What is agreed on this quote beyond its package: lines by hand, discounts, the deposit, extras to offer. */
export function TermsForms({ slug, quote, draft }: Props) {
  const hidden = { id: String(quote.id), version: String(quote.version) };
  const { currency, locale } = quote.terms;
  const { agreed, price, extras } = draft;
  const given = { slug, hidden, currency };
  return (
    <Section id="terms" title="Agreed on this quote" className="print:hidden">
      <HandLines {...given} agreed={agreed} parts={draft.parts} locale={locale} />
      <div className="flex flex-wrap gap-3">
        <Dialog trigger="Title" title="What the quote is called">
          <Form action={saveTitle} shop={slug} hidden={hidden} label="Title">
            <TextField
              name="title"
              label="Title"
              hint="The customer reads it, and the job takes it over."
              initial={quote.title}
              required
              maxLength={120}
            />
            <SubmitButton>Save the title</SubmitButton>
          </Form>
        </Dialog>
        <Dialog trigger="Add a line" title="A line by hand">
          <LineForm {...given} />
        </Dialog>
        <Dialog
          trigger={`Valid until ${dateText(quote.validUntil, locale)}`}
          title="How long this quote is valid"
        >
          <ValidUntilForm {...given} validUntil={quote.validUntil} />
        </Dialog>
        <Dialog trigger="Discount" title="Discount on the whole">
          <DiscountForm {...given} draft={draft} />
        </Dialog>
        <Dialog trigger="Discount a line" title="Discount on one line">
          <LineDiscountForm {...given} works={quote.works} lines={price.lines} locale={locale} />
        </Dialog>
        <Dialog trigger="Deposit" title="Deposit">
          <DepositForm {...given} draft={draft} shopBp={quote.terms.depositBp} />
        </Dialog>
        {extras.length > 0 && (
          <Dialog trigger="Extras to offer" title="Extras to offer">
            <ExtrasForm {...given} extras={extras} />
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
