"use client";
import { Button } from "@/app/_ui/Button";
import { Section } from "@/app/_ui/Section";
import { moneyText } from "@/lib/domain/money/format";
import { unitPriceText } from "@/lib/domain/money/unitPrice";
import type { KitForSale, PartForSale } from "@/lib/domain/pricing/sale";
import { quantityText } from "@/lib/schemas/quantity";
import type { CounterRules } from "./saleLines";

/** Several parts and kits that a code or some words may mean: one tap adds one of them. */
export function FoundParts({
  parts,
  kits,
  rules,
  add,
  addKit,
}: {
  parts: readonly PartForSale[];
  kits: readonly KitForSale[];
  rules: CounterRules;
  add: (part: PartForSale) => void;
  addKit: (kit: KitForSale) => void;
}) {
  if (parts.length + kits.length === 0) return null;
  return (
    <Section title="Which of these">
      <ul>
        {kits.map((kit) => (
          <li key={kit.code} className="flex items-center justify-between gap-4 border-hair border-b py-1.5">
            <span className="min-w-0">
              <span className="font-mono font-semibold">{kit.code}</span> {kit.name}
              <span className="block text-[14px] text-soft">
                {`Kit of ${kit.parts.length} ${kit.parts.length === 1 ? "part" : "parts"}, `}
                {kit.priceMinor === null
                  ? "priced by its parts"
                  : moneyText(kit.priceMinor, rules.currency, rules.locale)}
              </span>
            </span>
            <Button onClick={() => addKit(kit)}>
              Open<span className="sr-only"> {kit.code}</span>
            </Button>
          </li>
        ))}
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
