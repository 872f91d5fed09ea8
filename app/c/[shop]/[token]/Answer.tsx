import { alternativeName } from "@/app/_documents/alternativeDifferences";
import { WishFields } from "@/app/_documents/WishFields";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import type { ShownQuote } from "@/lib/data/quotes/shown";
import { weekdayNames } from "@/lib/schemas/wishes";
import { sayNo, sayYes } from "./actions";

/** Yes with a typed name and each acknowledgement; no with a reason. Both work without scripts. */
export function Answer({ slug, token, quote }: { slug: string; token: string; quote: ShownQuote }) {
  const { acknowledgements } = quote.printed;
  const taken = quote.extras.filter((e) => e.taken);
  const extras = taken.map((e) => e.key).join(",");
  const { alternatives, alternative, locale } = quote.printed;
  const chosen: Record<string, string> =
    alternatives && alternative ? { alternative: alternative.letter } : {};
  return (
    <>
      <Section title="Your yes">
        {(alternatives || taken.length > 0) && (
          <p className="mb-3">
            {alternatives && alternative && <strong>{alternativeName(alternative)}</strong>}
            {alternatives && taken.length > 0 && ", "}
            {taken.length > 0 && `${alternatives ? "with" : "With"} ${taken.map((e) => e.name).join(", ")}`}:{" "}
            <Money minor={quote.printed.grossMinor} currency={quote.printed.currency} locale={locale} />.
          </p>
        )}
        <Form
          action={sayYes}
          shop={slug}
          hidden={{ _token: token, shownHash: quote.hash, extras, ...chosen }}
          label="Accept the quote"
        >
          {acknowledgements.length > 0 && (
            <fieldset className="mb-4">
              <legend className="font-semibold text-[15px]">Please read and tick</legend>
              {acknowledgements.map((a) => (
                <CheckField key={a.key} name="acknowledgements[]" value={a.key} label={a.text} ruled />
              ))}
            </fieldset>
          )}
          <TextField
            name="typedName"
            label="Your full name"
            hint="Typing it counts as your signature."
            autoComplete="name"
            required
            maxLength={120}
          />
          <WishFields
            title="Say when it would suit you"
            today={quote.today}
            weekdays={weekdayNames(locale)}
            locale={locale}
          />
          <SubmitButton size="act" className="w-full">
            Accept this quote
          </SubmitButton>
        </Form>
      </Section>
      <details className="mt-4">
        <summary className="inline-flex min-h-12 items-center font-semibold text-brass underline underline-offset-[5px]">
          Not this time
        </summary>
        <Form
          action={sayNo}
          shop={slug}
          hidden={{ _token: token }}
          label="Decline the quote"
          className="mt-3"
        >
          <TextArea name="reason" label="Why not? (you may leave it empty)" rows={3} maxLength={400} />
          <SubmitButton tone="second" className="w-full">
            Decline
          </SubmitButton>
        </Form>
      </details>
    </>
  );
}
