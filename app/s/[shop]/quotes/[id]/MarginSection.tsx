import { Figure } from "@/app/_ui/Figure";
import { Form } from "@/app/_ui/Form";
import { figureText, moneyText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { QuotePage } from "@/lib/data/quotes/get";
import { allowMargin } from "../actions";

interface Props {
  slug: string;
  quote: QuotePage;
  draft: NonNullable<QuotePage["draft"]>;
  mayAllow: boolean;
}

/** What is left of the price, for those who may see it; below the least margin whoever may lets it go, and says why. */
export function MarginSection({ slug, quote, draft, mayAllow }: Props) {
  const { price, belowLeast, below } = draft;
  const { terms, belowMargin: said } = quote;
  const none = price.costKnown ? "nothing" : "not known";
  const allowed = below.every((one) => one.allowed);
  const percent = (bp: number) => `${figureText(bp / 100, terms.locale)} %`;
  return (
    <Section id="margin" title="Margin">
      <Figure
        large
        value={price.marginBp === null ? none : price.marginBp / 100}
        unit={price.marginBp === null ? undefined : "%"}
        locale={terms.locale}
        decimals={1}
      />
      <p className="mt-1 text-[14px] text-soft">
        {!price.costKnown && "A cost is missing. "}
        {price.costKnown &&
          price.marginBp === null &&
          `Nothing is charged; it costs ${moneyText(price.costMinor, price.currency, terms.locale)}. `}
        {price.costKnown &&
          !belowLeast &&
          terms.minimumMarginBp > 0 &&
          `Not below the shop's ${terms.minimumMarginBp / 100} %.`}
      </p>
      {price.warnings.map((w) => (
        <p key={w} className="mt-2 text-[14px] text-soft">
          {w}
        </p>
      ))}
      {below
        .filter((one) => one.of !== "")
        .map(({ of, marginBp }) => (
          <p key={of} className="mt-2 text-[14px]">
            {of}: {marginBp === null ? "nothing is charged" : percent(marginBp)}, below the shop's{" "}
            {percent(terms.minimumMarginBp)}.
          </p>
        ))}
      {below.length > 0 && said && (
        <p className="mt-2 text-[14px]">
          {allowed ? "Allowed" : "Allowed at a better margin"} by {said.by}: {said.why}
        </p>
      )}
      {!allowed && mayAllow && (
        <Form
          action={allowMargin}
          shop={slug}
          hidden={{ id: String(quote.id), version: String(quote.version) }}
          label="Allow this margin"
          className="mt-3"
        >
          <TextField name="reason" label="Why it may go out all the same" maxLength={300} required />
          <SubmitButton tone="second">Allow it</SubmitButton>
        </Form>
      )}
    </Section>
  );
}
