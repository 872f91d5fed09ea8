import { Fragment } from "react";
import { Money } from "@/app/_ui/Money";
import { Opens } from "@/app/_ui/Opens";
import type { PrintedInvoice, PrintedLine } from "@/lib/domain/invoices/printed";
import { nameIn } from "@/lib/domain/pricing/said";
import { quantityText } from "@/lib/schemas/quantity";
import { paperWords } from "@/lib/words/papers";
import { wordsIn } from "@/lib/words/words";

type Lines = Pick<
  PrintedInvoice,
  | "lines"
  | "taxes"
  | "netMinor"
  | "grossMinor"
  | "prepaidMinor"
  | "dueMinor"
  | "currency"
  | "locale"
  | "pricesIncludeTax"
  | "kind"
> & { readonly jobs?: PrintedInvoice["jobs"] };

const ROW = "flex items-baseline justify-between gap-4 border-hair border-b py-2";

interface Props {
  doc: Lines;
  plain?: boolean;
  /** Whose language it speaks; the staff's where it is not said. */
  spoken?: string;
}

/** What a document charges, line by line, under its jobs where there are several; each amount opens to its facts. Then taxes and sums. */
export function PrintedLines({ doc, plain, spoken = "en" }: Props) {
  const say = wordsIn(spoken);
  const { said } = paperWords(spoken);
  const money = (minor: number) => <Money minor={minor} currency={doc.currency} locale={doc.locale} />;
  const taxed = doc.taxes.filter((tax) => tax.rateBp > 0);
  const taxes = taxed.map((tax) => (
    <Sum
      key={tax.name}
      name={doc.pricesIncludeTax ? say("invoicePage.ofWhich", { tax: tax.name }) : tax.name}
      value={money(tax.taxMinor)}
    />
  ));
  const due = say(
    doc.kind === "creditNote"
      ? "invoicePage.dueToCredit"
      : doc.dueMinor < 0
        ? "invoicePage.dueToPayBack"
        : "invoicePage.dueToPay",
  );
  return (
    <>
      {groups(doc, spoken).map(({ head, lines }) => (
        <Fragment key={head}>
          {head !== "" && <h3 className="mt-4 font-bold">{head}</h3>}
          <ul>
            {lines.map((line) => (
              <li key={line.key} className={ROW}>
                <span className="min-w-0">
                  {nameIn(line, said)}
                  <span className="block text-[14px] text-soft">{quantity(line)}</span>
                </span>
                {plain ? (
                  money(line.shownMinor)
                ) : (
                  <Opens because={line.because} firmness="firm" name={nameIn(line, said)}>
                    {money(line.shownMinor)}
                  </Opens>
                )}
              </li>
            ))}
          </ul>
        </Fragment>
      ))}
      <dl>
        {!doc.pricesIncludeTax && taxed.length > 0 && (
          <Sum name={say("invoicePage.withoutTax")} value={money(doc.netMinor)} />
        )}
        {!doc.pricesIncludeTax && taxes}
        <Sum
          name={say("invoicePage.total", { currency: doc.currency })}
          value={money(doc.grossMinor)}
          strong
        />
        {doc.pricesIncludeTax && taxes}
        {doc.prepaidMinor !== 0 && (
          <Sum name={say("invoicePage.paidBefore")} value={money(0 - doc.prepaidMinor)} />
        )}
        {doc.prepaidMinor !== 0 && <Sum name={due} value={money(Math.abs(doc.dueMinor))} strong />}
      </dl>
    </>
  );
}

/** The lines of each job under its name; of one job, or of none, all without. */
function groups({ lines, jobs = [] }: Lines, spoken: string) {
  const say = wordsIn(spoken);
  if (jobs.length <= 1) return [{ head: "", lines }];
  return jobs.map(({ number, title, bike }) => ({
    head: `${say("mails.visitJob", { number: String(number), title })}, ${bike.name}`,
    lines: lines.filter((line) => line.job === number),
  }));
}

function Sum({ name, value, strong }: { name: string; value: React.ReactNode; strong?: boolean }) {
  return (
    <div
      className={
        strong
          ? "flex items-baseline justify-between gap-4 border-ink border-t-2 py-2 font-bold text-[19px]"
          : ROW
      }
    >
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  );
}

function quantity(line: PrintedLine): string {
  if (line.kind === "labour") return `${Math.round((line.quantityMilli * 60) / 1000)} min`;
  if (Math.abs(line.quantityMilli) === 1000 && line.unit === "each") return "";
  return line.unit === "each"
    ? `${quantityText(line.quantityMilli, "each")} ×`
    : quantityText(line.quantityMilli, line.unit);
}
