"use client";
import { moneyText } from "@/app/_ui/format";
import { handOver } from "@/lib/domain/invoices/handOver";
import type { PaymentMethod } from "@/lib/domain/invoices/settle";
import { parseMoney } from "@/lib/domain/money/parse";
import type { PricedQuote } from "@/lib/domain/pricing/facts";
import { Refusal } from "@/lib/domain/refusal";
import type { CounterRules } from "./saleLines";

interface SaleTotalProps {
  priced: PricedQuote | null;
  why: string;
  method: string;
  given: string;
  stepMinor: number;
  rules: CounterRules;
}

/** What is to be paid, the tax in it, the rounding to coins and the change, as it stands now. */
export function SaleTotal({ priced, why, method, given, stepMinor, rules }: SaleTotalProps) {
  if (!priced) return <p role="status">{why}</p>;
  const { currency, locale } = rules;
  const text = (minor: number) => moneyText(minor, currency, locale);
  const paid = attempt(priced.grossMinor, method as PaymentMethod, given, stepMinor, rules);
  const rows: (readonly [name: string, value: string, strong?: boolean])[] = [
    ...priced.lines
      .filter((line) => line.kind === "discount")
      .map((line) => [line.name, text(line.shownMinor)] as const),
    ...priced.taxes
      .filter((tax) => tax.taxMinor !== 0)
      .map(
        (tax) => [priced.pricesIncludeTax ? `of which ${tax.name}` : tax.name, text(tax.taxMinor)] as const,
      ),
    [`Total, ${currency}`, text(priced.grossMinor), true],
    ...(paid.told && paid.told.roundingMinor !== 0
      ? [["To pay in coins", text(paid.told.amountMinor), true] as const]
      : []),
    ...(paid.told && paid.told.changeMinor > 0
      ? [["Change", text(paid.told.changeMinor), true] as const]
      : []),
  ];
  return (
    <>
      <dl aria-live="polite">
        {rows.map(([name, value, strong]) => (
          <div
            key={name}
            className={
              strong
                ? "flex items-baseline justify-between gap-4 border-ink border-t-2 py-1.5 font-bold text-[19px]"
                : "flex items-baseline justify-between gap-4 py-1"
            }
          >
            <dt>{name}</dt>
            <dd className="font-mono">{value}</dd>
          </div>
        ))}
      </dl>
      {paid.why && <p className="mt-1 text-[15px] text-oxide">{paid.why}</p>}
    </>
  );
}

function attempt(
  dueMinor: number,
  method: PaymentMethod,
  given: string,
  stepMinor: number,
  rules: CounterRules,
) {
  if (dueMinor === 0) return { told: null, why: "" };
  try {
    const typed = given.trim() === "" ? null : parseMoney(given, rules.currency, rules.locale);
    return { told: handOver(dueMinor, method, typed, stepMinor, rules), why: "" };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { told: null, why: cause.message };
  }
}
