import { acknowledgementText } from "@/app/_documents/acknowledgementText";
import { alternativeName } from "@/app/_documents/alternativeDifferences";
import { WishFields } from "@/app/_documents/WishFields";
import { wishWords } from "@/app/_documents/wishWords";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import type { ShownQuote } from "@/lib/data/quotes/shown";
import { weekdayNames } from "@/lib/schemas/wishes";
import { wordsIn } from "@/lib/words/words";
import { sayNo, sayYes } from "./actions";

/** Yes with a typed name and each acknowledgement; no with a reason. Both work without scripts. */
export function Answer({ slug, token, quote }: { slug: string; token: string; quote: ShownQuote }) {
  const { acknowledgements } = quote.printed;
  const taken = quote.extras.filter((e) => e.taken);
  const extras = taken.map((e) => e.key).join(",");
  const { alternatives, alternative, locale } = quote.printed;
  const say = wordsIn(locale);
  const names = taken.map((e) => e.name).join(", ");
  const chosen: Record<string, string> =
    alternatives && alternative ? { alternative: alternative.letter } : {};
  return (
    <>
      {quote.printed.ownTerms && (
        <Section title={say("answering.ownTerms")}>
          <p className="whitespace-pre-line">{quote.printed.ownTerms}</p>
        </Section>
      )}
      <Section title={say("answering.yourYes")}>
        {(alternatives || taken.length > 0) && (
          <p className="mb-3">
            {alternatives && alternative && <strong>{alternativeName(alternative, locale)}</strong>}
            {alternatives && taken.length > 0 && ", "}
            {taken.length > 0 && say(alternatives ? "answering.with" : "answering.onlyWith", { names })}:{" "}
            <Money minor={quote.printed.grossMinor} currency={quote.printed.currency} locale={locale} />.
          </p>
        )}
        <Form
          action={sayYes}
          shop={slug}
          hidden={{ _token: token, shownHash: quote.hash, extras, ...chosen }}
          label={say("answering.acceptForm")}
        >
          {acknowledgements.length > 0 && (
            <fieldset className="mb-4">
              <legend className="font-semibold text-[15px]">{say("answering.readAndTick")}</legend>
              {acknowledgements.map((a) => (
                <CheckField
                  key={a.key}
                  name="acknowledgements[]"
                  value={a.key}
                  label={acknowledgementText(a, locale)}
                  ruled
                />
              ))}
            </fieldset>
          )}
          <TextField
            name="typedName"
            label={say("answering.fullName")}
            hint={say("answering.signature")}
            autoComplete="name"
            required
            maxLength={120}
          />
          <WishFields
            words={wishWords(locale)}
            today={quote.today}
            weekdays={weekdayNames(locale)}
            locale={locale}
          />
          <SubmitButton size="act" className="w-full">
            {say("answering.accept")}
          </SubmitButton>
        </Form>
      </Section>
      <details className="mt-4">
        <summary className="inline-flex min-h-12 items-center font-semibold text-brass underline underline-offset-[5px]">
          {say("answering.notThisTime")}
        </summary>
        <Form
          action={sayNo}
          shop={slug}
          hidden={{ _token: token }}
          label={say("answering.declineForm")}
          className="mt-3"
        >
          <TextArea name="reason" label={say("answering.whyNot")} rows={3} maxLength={400} />
          <SubmitButton tone="second" className="w-full">
            {say("answering.decline")}
          </SubmitButton>
        </Form>
      </details>
    </>
  );
}
