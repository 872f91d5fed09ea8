import { WishFields } from "@/app/_documents/WishFields";
import { wishWords } from "@/app/_documents/wishWords";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { ShownQuote } from "@/lib/data/quotes/shown";
import { weekdayNames } from "@/lib/schemas/wishes";
import { acceptByDesk } from "../../actions";

/** Who said yes and how, what was read to them, and when they would like it. */
export function YesForm({
  slug,
  revisionId,
  quote,
}: {
  slug: string;
  revisionId: number;
  quote: ShownQuote;
}) {
  const { printed } = quote;
  const extras = quote.extras.filter((e) => e.taken).map((e) => e.key);
  const alternative: Record<string, string> =
    printed.alternatives && printed.alternative ? { alternative: printed.alternative.letter } : {};
  return (
    <Section title="How they said it">
      <Form
        action={acceptByDesk}
        shop={slug}
        hidden={{
          revisionId: String(revisionId),
          shownHash: quote.hash,
          extras: extras.join(","),
          ...alternative,
        }}
        label="Accepted by the customer"
      >
        <TextField name="typedName" label="Who said yes" initial={quote.customerName} required />
        <TextField name="how" label="How" hint="By phone on Tuesday, at the desk, by mail." required />
        {printed.acknowledgements.length > 0 && (
          <fieldset className="mb-3">
            <legend className="font-semibold text-[15px]">Read to them, and understood</legend>
            {printed.acknowledgements.map((a) => (
              <CheckField key={a.key} name="acknowledgements[]" value={a.key} label={a.text} />
            ))}
          </fieldset>
        )}
        <WishFields
          words={wishWords("en", "When it would suit them")}
          today={quote.today}
          weekdays={weekdayNames(printed.locale)}
        />
        <SubmitButton size="act">Accept for them and make the job</SubmitButton>
      </Form>
    </Section>
  );
}
