import { Form } from "@/app/_ui/Form";
import { moneyText } from "@/app/_ui/format";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { DraftView } from "@/lib/data/quotes/draftView";
import { saveDiscount, saveLineDiscount } from "../actions";
import type { Given } from "./given";

/** A discount on the whole quote. */
export function DiscountForm({ slug, hidden, currency, draft }: Given & { draft: DraftView }) {
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

/** A discount on one line. */
export function LineDiscountForm({
  slug,
  hidden,
  currency,
  lines,
  works,
  locale,
}: Given & {
  lines: DraftView["price"]["lines"];
  works: readonly { readonly key: string; readonly name: string }[];
  locale: string;
}) {
  const named = ({ name, work }: DraftView["price"]["lines"][number]) => {
    const of = work === undefined ? undefined : works.find((one) => one.key === work)?.name;
    return of === undefined || of === name ? name : `${of}: ${name}`;
  };
  return (
    <Form action={saveLineDiscount} shop={slug} hidden={hidden} label="Discount on one line">
      <SelectField
        name="line"
        label="Line"
        options={lines
          .filter((l) => l.kind !== "discount" && l.kind !== "sundries")
          .map((l) => ({
            value: l.key,
            label: `${named(l)}, ${moneyText(l.shownMinor, currency, locale)}`,
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
  );
}
