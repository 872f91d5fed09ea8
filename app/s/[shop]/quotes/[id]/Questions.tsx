import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import type { QuotePage } from "@/lib/data/quotes/get";
import { answer } from "../actions";

/** What the customer asked by their link, and a place to answer. Nothing where nothing was asked. */
export function Questions({ slug, quote, mayWrite }: { slug: string; quote: QuotePage; mayWrite: boolean }) {
  if (quote.questions.length === 0) return null;
  const { locale, zone } = quote.terms;
  return (
    <Section title="Asked by the customer">
      <ul className="max-w-[46rem]">
        {quote.questions.map((q) => (
          <li key={q.id} className="border-hair border-b py-3">
            <p className="text-[14px] text-soft">
              <Instant at={q.askedAt.toISOString()} locale={locale} zone={zone} />
            </p>
            <p className="whitespace-pre-line font-semibold">{q.text}</p>
            {q.answeredAt ? (
              <p className="mt-1 whitespace-pre-line">
                {q.answer}
                <span className="block text-[14px] text-soft">
                  {q.answeredBy}, <Instant at={q.answeredAt.toISOString()} locale={locale} zone={zone} />
                </span>
              </p>
            ) : (
              <>
                <State shape="triangle" tone="brass">
                  Waits for an answer
                </State>
                {mayWrite && (
                  <Form
                    action={answer}
                    shop={slug}
                    hidden={{ questionId: String(q.id) }}
                    label="Answer"
                    className="mt-2"
                  >
                    <TextArea name="answer" label="Answer" rows={3} required maxLength={2000} />
                    <SubmitButton>Send the answer</SubmitButton>
                  </Form>
                )}
              </>
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}
