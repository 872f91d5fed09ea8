"use client";
import { moneyText } from "@/app/_ui/moneyText";
import { creditOfPart, type PartCredit } from "@/lib/domain/invoices/creditLines";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { Refusal } from "@/lib/domain/refusal";
import { typedCredit } from "@/lib/schemas/typedCredit";
import type { CreditDeskProps } from "./CreditDesk";
import { NOTHING, type TypedLines } from "./CreditLines";

interface CreditSumsProps {
  doc: PrintedInvoice;
  credits: readonly PrintedInvoice[];
  lines: CreditDeskProps["lines"];
  typed: TypedLines;
  whole: string;
  leftMinor: number;
}

/** What the credit note comes to as it stands: its lines, taxes and total, and what is then left to pay. */
export function CreditSums({ doc, leftMinor, ...rest }: CreditSumsProps) {
  const { credit, why } = reckoned({ doc, ...rest });
  if (!credit)
    return (
      <p role="status" className="mb-4 text-soft">
        {why}
      </p>
    );
  const text = (minor: number) => moneyText(minor, doc.currency, doc.locale);
  const after = leftMinor + credit.grossMinor;
  const rows: (readonly [key: string, name: string, value: string, strong?: boolean])[] = [
    ...credit.lines.map((line) => [line.key, line.name, text(line.shownMinor)] as const),
    ...credit.taxes
      .filter((tax) => tax.taxMinor !== 0)
      .map(
        (tax) =>
          [tax.name, doc.pricesIncludeTax ? `of which ${tax.name}` : tax.name, text(tax.taxMinor)] as const,
      ),
    ["total", `Credited, ${doc.currency}`, text(credit.grossMinor), true],
    ["after", after < 0 ? "Then to pay back" : "Then left to pay", text(Math.abs(after))],
  ];
  return (
    <dl aria-live="polite" className="mb-4">
      {rows.map(([key, name, value, strong]) => (
        <div
          key={key}
          className={
            strong
              ? "flex items-baseline justify-between gap-4 border-ink border-t-2 py-1.5 font-bold text-[19px]"
              : "flex items-baseline justify-between gap-4 py-1"
          }
        >
          <dt className="min-w-0">{name}</dt>
          <dd className="font-mono">{value}</dd>
        </div>
      ))}
    </dl>
  );
}

function reckoned({ doc, credits, lines, typed, whole }: Omit<CreditSumsProps, "leftMinor">): {
  credit: PartCredit | null;
  why: string;
} {
  try {
    const asked = lines.map(({ line: { key } }) => ({
      key,
      quantity: typed[key]?.quantity.trim() ?? NOTHING.quantity,
      amount: typed[key]?.amount.trim() ?? NOTHING.amount,
      // Where the part is changes no sum: it is asked as the form is sent.
      fate: "stays" as const,
    }));
    const { ask } = typedCredit({ lines: asked, whole: whole.trim() }, lines, doc);
    return { credit: creditOfPart(doc, credits, ask), why: "" };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { credit: null, why: `${cause.message} ${cause.remedy}` };
  }
}
