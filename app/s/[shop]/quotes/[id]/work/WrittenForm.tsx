import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Suggestions } from "@/app/_ui/Suggestions";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import type { WrittenWork } from "@/lib/domain/packages/work";
import { ChangeRows } from "../../../packages/[id]/edit/[part]/ChangeRows";
import { HoldRows } from "../../../packages/[id]/edit/[part]/HoldRows";
import { PartRows } from "../../../packages/[id]/edit/[part]/PartRows";
import { currencyDigits, plainAmount } from "../../../packages/plainAmount";
import { putWork } from "./actions";
import { AccessRows, OutsideRows, StepRows } from "./WorkRows";

interface Props {
  slug: string;
  hidden: Record<string, string>;
  work: WrittenWork | null;
  currency: string;
  locale: string;
  grades: readonly { readonly code: string; readonly name: string }[];
  /** Names of the accesses that the shop's packages know. */
  accesses: readonly string[];
}

/** A work written for one quote: what most works need first, the rest below. */
export function WrittenForm({ slug, hidden, work, currency, locale, grades, accesses }: Props) {
  const amount = (minor: number | undefined) =>
    minor === undefined ? "" : plainAmount(minor, currencyDigits(currency), locale);
  return (
    <Form action={putWork} shop={slug} hidden={hidden} label="A work" className="max-w-[52rem]">
      <TextField
        name="name"
        label="What is done"
        hint="Chain and sprockets renewed"
        initial={work?.name ?? ""}
        required
        maxLength={120}
      />
      <TextArea
        name="plain"
        label="What the customer reads"
        initial={work?.plain ?? ""}
        rows={2}
        maxLength={2000}
      />
      <StepRows
        rows={work?.steps ?? []}
        grades={grades.map(({ code, name }) => ({ value: code, label: name }))}
      />
      <PartRows rows={work?.parts ?? []} shop={slug} drawers />
      <TextField
        name="fixedPrice"
        label={`Fixed price, ${currency}`}
        hint="Empty: time and parts are charged as they are. As your prices are shown."
        initial={amount(work?.fixedPriceMinor)}
        inputMode="decimal"
        mono
      />
      <details className="mb-6" open={hasMore(work)}>
        <summary className="min-h-12 cursor-pointer py-3 font-semibold">
          Work from outside, what has to be open, cautions, checks, settings
        </summary>
        <OutsideRows
          rows={(work?.outside ?? []).map(({ name, priceMinor, costMinor, taxMark }) => ({
            taxMark: taxMark ?? "",
            name,
            price: amount(priceMinor),
            cost: amount(costMinor),
          }))}
          currency={currency}
        />
        <AccessRows rows={work?.accesses ?? []} />
        <Suggestions id="accesses" values={accesses} />
        <Section title="Cautions">
          <TextArea
            name="cautions"
            label="One a line"
            hint="Said to the customer, and on the card before the step"
            initial={work?.cautions.join("\n") ?? ""}
            rows={2}
          />
        </Section>
        <HoldRows rows={work?.holdPoints ?? []} />
        <ChangeRows rows={work?.changes ?? []} />
      </details>
      <SubmitButton>{work ? "Save the work" : "Put it on the quote"}</SubmitButton>
    </Form>
  );
}

function hasMore(work: WrittenWork | null): boolean {
  if (!work) return false;
  const { outside, accesses, cautions, holdPoints, changes } = work;
  return [outside, accesses, cautions, holdPoints, changes].some((list) => list.length > 0);
}
