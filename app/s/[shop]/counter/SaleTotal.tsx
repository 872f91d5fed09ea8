"use client";
import { moneyText } from "@/app/_ui/moneyText";
import { type HandedOver, handedOver } from "@/lib/domain/invoices/handOver";
import type { PaymentMethod } from "@/lib/domain/invoices/settle";
import { parseMoney } from "@/lib/domain/money/parse";
import type { PricedQuote } from "@/lib/domain/pricing/facts";
import { Refusal } from "@/lib/domain/refusal";
import { METHOD_WORDS } from "@/lib/schemas/paymentWords";
import type { CounterRules } from "./saleLines";

interface SaleTotalProps {
  priced: PricedQuote | null;
  why: string;
  method: string;
  given: string;
  /** What is paid of it another way; both empty where all is paid in one. */
  also: { readonly method: string; readonly amount: string };
  stepMinor: number;
  rules: CounterRules;
}

/** What is to be paid, the tax in it, the rounding to coins and the change, as it stands now. */
export function SaleTotal({ priced, why, method, given, also, stepMinor, rules }: SaleTotalProps) {
  if (!priced) return <p role="status">{why}</p>;
  const { currency, locale } = rules;
  const text = (minor: number) => moneyText(minor, currency, locale);
  const paid = attempt(priced.grossMinor, { method, given, also }, stepMinor, rules);
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
    ...paid.told.flatMap((part) => [
      ...(paid.told.length > 1
        ? [[`In ${METHOD_WORDS[part.method]}`, text(part.amountMinor), true] as const]
        : part.roundingMinor !== 0
          ? [["To pay in coins", text(part.amountMinor), true] as const]
          : []),
      ...(part.changeMinor > 0 ? [["Change", text(part.changeMinor), true] as const] : []),
    ]),
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
  { method, given, also }: Pick<SaleTotalProps, "method" | "given" | "also">,
  stepMinor: number,
  rules: CounterRules,
): { told: readonly HandedOver[]; why: string } {
  const minor = (text: string) => parseMoney(text, rules.currency, rules.locale);
  try {
    const how = {
      method: method as PaymentMethod,
      givenMinor: given.trim() === "" ? null : minor(given),
      also:
        also.amount.trim() === ""
          ? undefined
          : { method: also.method as PaymentMethod, amountMinor: minor(also.amount) },
    };
    return { told: handedOver(dueMinor, how, stepMinor, rules), why: "" };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { told: [], why: cause.message };
  }
}
