import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { dateText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { saveTitle } from "../actions";
import { DepositForm } from "./DepositForm";
import { DiscountForm, LineDiscountForm } from "./DiscountForms";
import { ExtrasForm } from "./ExtrasForm";
import { HandLines } from "./HandLines";
import { LineForm } from "./LineForm";
import type { DraftScreen } from "./shown/screen";
import { useDraft } from "./useDraft";
import { ValidUntilForm } from "./ValidUntilForm";

/** What is agreed on this quote beyond its package: lines by hand, discounts, the deposit, extras to offer. */
export function TermsForms({ slug, fixed }: { slug: string; fixed: DraftScreen["fixed"] }) {
  const terms = useDraft((draft) => draft.terms);
  const { hidden } = useDraft((draft) => draft.forms);
  const { currency, locale } = fixed;
  const { extras } = terms;
  const given = { slug, hidden, currency };
  return (
    <Section id="terms" title="Agreed on this quote" className="print:hidden">
      <HandLines {...given} lines={terms.byHand} />
      <div className="flex flex-wrap gap-3">
        <Dialog trigger="Title" title="What the quote is called">
          <Form action={saveTitle} shop={slug} hidden={hidden} label="Title">
            <TextField
              name="title"
              label="Title"
              hint="The customer reads it, and the job takes it over."
              initial={terms.title}
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
          trigger={`Valid until ${dateText(terms.validUntil, locale)}`}
          title="How long this quote is valid"
        >
          <ValidUntilForm {...given} validUntil={terms.validUntil} />
        </Dialog>
        <Dialog trigger="Discount" title="Discount on the whole">
          <DiscountForm {...given} discount={terms.discount} />
        </Dialog>
        <Dialog trigger="Discount a line" title="Discount on one line">
          <LineDiscountForm {...given} lines={terms.lines} />
        </Dialog>
        <Dialog trigger="Deposit" title="Deposit">
          <DepositForm {...given} deposit={terms.deposit} />
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
