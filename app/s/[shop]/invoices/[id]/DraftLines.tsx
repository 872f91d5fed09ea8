import { DateText } from "@/app/_ui/DateText";
import { Form } from "@/app/_ui/Form";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { DraftSide } from "@/lib/data/invoices/draftSides";
import type { InvoiceView } from "@/lib/data/invoices/get";
import { dayIn } from "@/lib/domain/schedule/days";
import { EDIT_WORDS } from "@/lib/schemas/invoiceEdits";
import { putBack } from "../actions";
import { AddLine, ChangeLine } from "./LineForms";

export interface DraftLinesProps {
  slug: string;
  invoice: InvoiceView;
  currency: string;
  locale: string;
  zone: string;
  mayInvoice: boolean;
}

/** A draft's lines as agreed, as worked and as they are charged; each can be changed, with why. */
export function DraftLines(props: DraftLinesProps) {
  const { slug, invoice, currency, locale, mayInvoice } = props;
  const { sides = [] } = invoice;
  if (sides.length === 0) return null;
  const seen = { id: String(invoice.id), version: String(invoice.version) };
  return (
    <Section
      id="lines"
      title="Line by line"
      aside={mayInvoice && <AddLine slug={slug} seen={seen} currency={currency} jobs={invoice.jobs} />}
    >
      <ul>
        {sides.map((side) => (
          <li key={side.key} className="border-hair border-b py-2.5">
            <div className="flex items-start justify-between gap-4">
              <span className={side.chargedMinor === null ? "min-w-0 text-soft line-through" : "min-w-0"}>
                {side.job === null ? "" : `Job ${side.job}: `}
                {side.name}
              </span>
              {mayInvoice && (side.typed || side.agreedMinor !== null || side.workedMinor !== null) && (
                <ChangeLine slug={slug} seen={seen} side={side} currency={currency} locale={locale} />
              )}
            </div>
            <Amounts side={side} currency={currency} locale={locale} />
            <Changed side={side} {...props} />
            {mayInvoice && side.edit && (
              <Form
                action={putBack}
                shop={slug}
                hidden={{ ...seen, key: side.key }}
                label={`Put ${side.name} back`}
              >
                <SubmitButton tone="quiet">
                  {side.edit.act === "add" ? "Take it off again" : "Put it back as it was"}
                </SubmitButton>
              </Form>
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}

function Amounts({ side, currency, locale }: { side: DraftSide; currency: string; locale: string }) {
  const cells = [
    ["as agreed", side.agreedMinor],
    ["as worked", side.workedMinor],
    ["charged", side.chargedMinor],
  ] as const;
  return (
    <dl className="mt-1 grid grid-cols-3 gap-x-4 text-[14px]">
      {cells.map(([name, minor]) => (
        <div key={name}>
          <dt className="text-soft">{name}</dt>
          <dd className={name === "charged" ? "font-bold" : ""}>
            {minor === null ? "not there" : <Money minor={minor} currency={currency} locale={locale} />}
          </dd>
        </div>
      ))}
    </dl>
  );
}

/** What was changed on it, why and by whom. */
function Changed({ side, invoice, locale, zone }: DraftLinesProps & { side: DraftSide }) {
  const edit = invoice.edits.find((one) => one.key === side.key);
  if (!edit) return null;
  return (
    <p className="mt-1 text-[14px]">
      {EDIT_WORDS[edit.act]}: {edit.reason} ({edit.by},{" "}
      <DateText date={dayIn(zone, edit.at)} locale={locale} />)
    </p>
  );
}

/** On what is issued: what had been changed by hand, why and by whom. It is not printed. */
export function ChangesMade({ invoice, locale, zone }: Pick<DraftLinesProps, "invoice" | "locale" | "zone">) {
  if (invoice.edits.length === 0 || invoice.state === "draft") return null;
  return (
    <Section title="Changed by hand before it was issued">
      <ul>
        {invoice.edits.map((edit) => (
          <li key={edit.key} className="border-hair border-b py-2">
            {invoice.doc?.lines.find((line) => line.key === edit.key)?.name ?? edit.line?.name ?? edit.key}
            <span className="block text-[14px] text-soft">
              {EDIT_WORDS[edit.act]}: {edit.reason} ({edit.by},{" "}
              <DateText date={dayIn(zone, edit.at)} locale={locale} />)
            </span>
          </li>
        ))}
      </ul>
    </Section>
  );
}
