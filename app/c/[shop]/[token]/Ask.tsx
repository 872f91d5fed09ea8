import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import type { ShownQuote } from "@/lib/data/quotes/shown";
import { wordsIn } from "@/lib/words/words";
import { ask } from "./actions";

/** What was asked and answered so far, and a place to ask. */
export function Ask({ slug, token, quote }: { slug: string; token: string; quote: ShownQuote }) {
  const say = wordsIn(quote.printed.locale);
  return (
    <>
      {quote.questions.length > 0 && (
        <Section title={say("answering.yourQuestions")}>
          <ul>
            {quote.questions.map((q) => (
              <li key={q.id} className="border-hair border-b py-2.5">
                <p className="whitespace-pre-line font-semibold">{q.text}</p>
                <p className="whitespace-pre-line">
                  {q.answeredAt ? q.answer : <span className="text-soft">{say("answering.willAnswer")}</span>}
                </p>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <details className="mb-6">
        <summary className="inline-flex min-h-12 items-center font-semibold text-brass underline underline-offset-[5px]">
          {say("answering.askFirst")}
        </summary>
        <Form
          key={quote.questions.length}
          action={ask}
          shop={slug}
          hidden={{ _token: token }}
          label={say("answering.askForm")}
          className="mt-3"
        >
          <TextArea name="text" label={say("answering.yourQuestion")} rows={3} required maxLength={1000} />
          <SubmitButton tone="second" className="w-full">
            {say("answering.ask")}
          </SubmitButton>
        </Form>
      </details>
    </>
  );
}
