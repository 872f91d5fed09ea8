import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import type { ShownQuote } from "@/lib/data/quotes/shown";
import { ask } from "./actions";

/** What was asked and answered so far, and a place to ask. */
export function Ask({ slug, token, quote }: { slug: string; token: string; quote: ShownQuote }) {
  return (
    <>
      {quote.questions.length > 0 && (
        <Section title="Your questions">
          <ul>
            {quote.questions.map((q) => (
              <li key={q.id} className="border-hair border-b py-2.5">
                <p className="whitespace-pre-line font-semibold">{q.text}</p>
                <p className="whitespace-pre-line">
                  {q.answeredAt ? (
                    q.answer
                  ) : (
                    <span className="text-soft">The shop has it and will answer.</span>
                  )}
                </p>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <details className="mb-6">
        <summary className="inline-flex min-h-12 items-center font-semibold text-brass underline underline-offset-[5px]">
          Ask a question first
        </summary>
        <Form
          key={quote.questions.length}
          action={ask}
          shop={slug}
          hidden={{ _token: token }}
          label="Ask a question"
          className="mt-3"
        >
          <TextArea name="text" label="Your question" rows={3} required maxLength={1000} />
          <SubmitButton tone="second" className="w-full">
            Ask the shop
          </SubmitButton>
        </Form>
      </details>
    </>
  );
}
