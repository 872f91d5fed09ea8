"use client";
import { FieldError } from "@/app/_ui/FieldFrame";
import { useFormField } from "@/app/_ui/formContext";
import { moneyText } from "@/app/_ui/moneyText";
import { SelectField } from "@/app/_ui/SelectField";
import { TypedFigure } from "@/app/_ui/TypedFigure";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { quantityText } from "@/lib/schemas/quantity";
import { FATE_WORDS, FATES, isLabour, minutesLeft } from "@/lib/schemas/typedCredit";

import type { CreditDeskProps } from "./CreditDesk";

/** What is typed of each line, by its key. */
export type TypedLines = Readonly<Record<string, { readonly quantity: string; readonly amount: string }>>;
export const NOTHING = { quantity: "", amount: "" };

interface CreditLinesProps {
  lines: CreditDeskProps["lines"];
  doc: PrintedInvoice;
  typed: TypedLines;
  change: (typed: TypedLines) => void;
}

/** Each line that can be credited: how much of it, or an amount off it, and where its part is now. */
export function CreditLines({ lines, doc, typed, change }: CreditLinesProps) {
  return (
    <ul>
      {lines.map((one, at) => {
        const { key, name } = one.line;
        const own = typed[key] ?? NOTHING;
        const set = (next: Partial<typeof own>) => change({ ...typed, [key]: { ...own, ...next } });
        const field = (of: string) => `lines.${at}.${of}`;
        return (
          <li key={key} className="border-hair border-b py-3">
            <input type="hidden" name={field("key")} value={key} readOnly />
            <div className="mb-2 flex items-baseline justify-between gap-3">
              <span className="min-w-0">
                {name}
                {doc.jobs.length > 1 && one.line.job && (
                  <span className="block text-[14px] text-soft">Job {one.line.job}</span>
                )}
              </span>
              <span className="text-right font-mono">
                {moneyText(one.leftMinor, doc.currency, doc.locale)}
                <span className="block text-[14px] text-soft">{left(one)} left</span>
              </span>
            </div>
            <div className="grid grid-cols-2 items-end gap-2.5 sm:max-w-md">
              <TypedFigure
                label={
                  isLabour(one)
                    ? "Minutes"
                    : one.line.unit === "each"
                      ? "How many"
                      : `How much, ${one.line.unit}`
                }
                name={field("quantity")}
                value={own.quantity}
                onType={(quantity) => set({ quantity })}
              />
              <TypedFigure
                label="or amount off"
                name={field("amount")}
                value={own.amount}
                onType={(amount) => set({ amount })}
              />
            </div>
            <Wrong name={field("quantity")} />
            <Wrong name={field("amount")} />
            {one.part && own.quantity !== "" && (
              <SelectField
                name={field("fate")}
                label={`Where ${name} is now`}
                className="mt-3 sm:max-w-md"
                options={[
                  { value: "", label: "Choose" },
                  ...FATES.map((value) => ({ value, label: FATE_WORDS[value] })),
                ]}
              />
            )}
          </li>
        );
      })}
    </ul>
  );
}

/** What is wrong with a figure that the page reckons with. */
function Wrong({ name }: { name: string }) {
  const { error } = useFormField(name);
  return <FieldError id={name} error={error} />;
}

const left = (one: CreditDeskProps["lines"][number]) =>
  isLabour(one) ? `${minutesLeft(one)} min` : quantityText(Math.abs(one.leftMilli), one.line.unit);
