"use client";
import { Button } from "@/app/_ui/Button";
import { Section } from "@/app/_ui/Section";
import { unitPriceText } from "@/lib/domain/money/format";
import type { PartForSale } from "@/lib/domain/pricing/sale";
import { quantityText } from "@/lib/schemas/quantity";
import type { CounterRules } from "./saleLines";

/** Several parts that a code or some words may mean: one tap adds one of them. */
export function FoundParts({
  parts,
  rules,
  add,
}: {
  parts: readonly PartForSale[];
  rules: CounterRules;
  add: (part: PartForSale) => void;
}) {
  if (parts.length === 0) return null;
  return (
    <Section title="Which of these">
      <ul>
        {parts.map((part) => (
          <li key={part.id} className="flex items-center justify-between gap-4 border-hair border-b py-1.5">
            <span className="min-w-0">
              <span className="font-mono font-semibold">{part.code}</span> {part.name}
              <span className="block text-[14px] text-soft">
                {quantityText(part.freeMilli, part.unit)} free,{" "}
                {part.priceE4 === null
                  ? "no price yet"
                  : `${unitPriceText(part.priceE4, rules.currency, rules.locale)} each`}
              </span>
            </span>
            <Button onClick={() => add(part)}>
              Add<span className="sr-only"> {part.code}</span>
            </Button>
          </li>
        ))}
      </ul>
    </Section>
  );
}
