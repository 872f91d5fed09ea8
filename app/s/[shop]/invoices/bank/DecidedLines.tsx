import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { decidedLines, LineState } from "@/lib/data/bank/lines";
import { reopen } from "./actions";
import { LineText } from "./LineText";
import type { Counted } from "./Proposed";

type Line = Awaited<ReturnType<typeof decidedLines>>["lines"][number];

/** Lines that wait for nobody, with what became of each; those that were decided can wait again. */
export function DecidedLines({
  slug,
  lines,
  which,
  currency,
  locale,
}: Counted & { slug: string; lines: readonly Line[]; which: LineState }) {
  return (
    <ul>
      {lines.map((line) => (
        <li
          key={line.id}
          className="grid gap-x-6 gap-y-2 border-hair border-b py-3 rail:grid-cols-[minmax(0,1fr)_auto]"
        >
          <div className="min-w-0">
            <LineText line={line} currency={currency} locale={locale} />
            <Became slug={slug} line={line} />
          </div>
          {which === "out" ? (
            <LinkButton href={`/s/${slug}/invoices/bank/${line.id}`} tone="quiet">
              Set aside
            </LinkButton>
          ) : (
            <Dialog trigger="Let it wait again" triggerTone="quiet" title="Let it wait again">
              <Form
                action={reopen}
                shop={slug}
                hidden={{ id: String(line.id), version: String(line.version) }}
                label="Wait again"
              >
                {which === "booked" && (
                  <p className="mb-3 max-w-prose">
                    Its payments stay on record, and entries take them back: what they paid is due again.
                  </p>
                )}
                <TextField name="why" label="Why (may stay empty)" maxLength={80} />
                <SubmitButton>Let it wait again</SubmitButton>
              </Form>
            </Dialog>
          )}
        </li>
      ))}
    </ul>
  );
}

function Became({ slug, line }: { slug: string; line: Line }) {
  const [decision] = line.decisions;
  if (!decision) return null;
  if (decision.act !== "booked") return <p className="text-[14px] text-soft">{decision.why}</p>;
  const link = "underline decoration-hair underline-offset-4 hover:decoration-ink";
  const papers = new Map(
    decision.payments.map(({ payment: { invoice, job } }) =>
      invoice
        ? [`invoice ${invoice.written}`, `/s/${slug}/invoices/${invoice.id}`]
        : [`deposit of job ${job?.number ?? ""}`, `/s/${slug}/jobs/${job?.id ?? ""}`],
    ),
  );
  return (
    <p className="text-[14px]">
      Booked:{" "}
      {[...papers].map(([name, href], at) => (
        <span key={href}>
          {at > 0 && ", "}
          <Link href={href} className={link}>
            {name}
          </Link>
        </span>
      ))}
    </p>
  );
}
