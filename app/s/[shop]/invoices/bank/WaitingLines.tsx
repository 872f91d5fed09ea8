import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { WaitingView } from "@/lib/data/bank/lines";
import { book, bookAll, reopen } from "./actions";
import { LineText } from "./LineText";
import { type Counted, Proposed, takesText } from "./Proposed";

type Line = WaitingView["lines"][number];
type Props = Counted & { slug: string; lines: readonly Line[] };

/** What waits: certain ones together, to be looked at and booked in one act; the others one by one. */
export function WaitingLines({ lines, ...rest }: Props) {
  const certain = lines.filter((line) => line.proposal?.certainty === "certain");
  const others = lines.filter((line) => line.proposal?.certainty !== "certain");
  return (
    <>
      {certain.length > 0 && (
        <Section title="By their number and amount">
          <Form action={bookAll} shop={rest.slug} hidden={allOf(certain)} label="All certain ones">
            <SubmitButton size="act">
              {certain.length === 1 ? "Book this line" : `Book these ${certain.length} lines`}
            </SubmitButton>
          </Form>
          <Lines {...rest} lines={certain} />
        </Section>
      )}
      {others.length > 0 && (
        <Section title="To be looked at one by one">
          <Lines {...rest} lines={others} />
        </Section>
      )}
    </>
  );
}

const allOf = (lines: readonly Line[]): Record<string, string> =>
  Object.fromEntries(
    lines.flatMap(({ id, version, proposal }, at) =>
      proposal
        ? [
            [`lines.${at}.id`, String(id)],
            [`lines.${at}.version`, String(version)],
            [`lines.${at}.takes`, takesText(proposal)],
          ]
        : [],
    ),
  );

function Lines({ slug, lines, currency, locale }: Props) {
  return (
    <ul className="mt-2">
      {lines.map((line) => (
        <li
          key={line.id}
          className="grid gap-x-6 gap-y-2 border-hair border-b py-3 rail:grid-cols-[minmax(0,1fr)_auto]"
        >
          <div className="min-w-0">
            <LineText line={line} currency={currency} locale={locale} />
            {line.proposal ? (
              <Proposed proposal={line.proposal} currency={currency} locale={locale} />
            ) : (
              <p className="text-soft">Nothing tells what it pays.</p>
            )}
          </div>
          <div className="flex flex-wrap items-start gap-2.5">
            {line.proposal && line.proposal.takes.length > 0 && (
              <Form
                action={book}
                undo={reopen}
                shop={slug}
                hidden={{
                  id: String(line.id),
                  version: String(line.version),
                  takes: takesText(line.proposal),
                }}
                label={`Line ${line.id}`}
              >
                <SubmitButton tone="second">Book it</SubmitButton>
              </Form>
            )}
            <LinkButton href={`/s/${slug}/invoices/bank/${line.id}`} tone="quiet">
              {line.proposal && line.proposal.takes.length > 0 ? "Another way" : "Choose"}
            </LinkButton>
          </div>
        </li>
      ))}
    </ul>
  );
}
