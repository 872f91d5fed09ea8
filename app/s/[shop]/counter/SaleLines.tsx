"use client";
import { Button } from "@/app/_ui/Button";
import { TypedFigure } from "@/app/_ui/TypedFigure";
import { quantityText } from "@/lib/schemas/quantity";
import { stepped, type TypedLine } from "./saleLines";

export interface SaleLinesProps {
  lines: readonly TypedLine[];
  currency: string;
  change: (lines: readonly TypedLine[]) => void;
}

/** What is sold: each part with how many, the price of one and what comes off, to be changed where it stands. */
export function SaleLines({ lines, currency, change }: SaleLinesProps) {
  return (
    <ul className="mb-4">
      {lines.map((line, at) => (
        <SaleLine
          key={line.part.id}
          line={line}
          at={at}
          currency={currency}
          set={(next) => change(lines.map((one, place) => (place === at ? { ...one, ...next } : one)))}
          step={(by) => change(stepped(lines, at, by))}
          drop={() => change(lines.filter((_, place) => place !== at))}
        />
      ))}
    </ul>
  );
}

interface SaleLineProps {
  line: TypedLine;
  at: number;
  currency: string;
  set: (next: Partial<TypedLine>) => void;
  step: (by: number) => void;
  drop: () => void;
}

function SaleLine({ line, at, currency, set, step, drop }: SaleLineProps) {
  const { part } = line;
  const pieces = part.unit === "each";
  const name = (field: string) => `lines.${at}.${field}`;
  return (
    <li className="border-hair border-b py-3">
      <input type="hidden" name={name("partId")} value={part.id} readOnly />
      <div className="mb-2 flex items-baseline justify-between gap-3">
        <span className="min-w-0">
          <span className="font-mono font-semibold">{part.code}</span> {part.name}
          <span className="block text-[14px] text-soft">
            {quantityText(part.freeMilli, part.unit)} free in the drawer
          </span>
        </span>
        <Button tone="quiet" onClick={drop} aria-label={`Take ${part.code} off`}>
          Take off
        </Button>
      </div>
      <div className="grid grid-cols-[auto_minmax(0,1fr)_minmax(0,5.5rem)] items-end gap-2.5 sm:max-w-xl">
        <div className="flex items-end gap-1">
          {pieces && (
            <Button
              onClick={() => step(-1)}
              aria-label={`One ${part.code} less`}
              className="min-w-11 px-3 pointer-coarse:min-w-12"
            >
              −
            </Button>
          )}
          <TypedFigure
            label={pieces ? "How many" : `How much, ${part.unit}`}
            name={name("quantity")}
            value={line.quantity}
            onType={(quantity) => set({ quantity })}
            className="w-16"
          />
          {pieces && (
            <Button
              onClick={() => step(1)}
              aria-label={`One ${part.code} more`}
              className="min-w-11 px-3 pointer-coarse:min-w-12"
            >
              +
            </Button>
          )}
        </div>
        <TypedFigure
          label={`Price of one, ${currency}`}
          name={name("price")}
          value={line.price}
          onType={(price) => set({ price })}
        />
        <TypedFigure
          label="% off"
          name={name("discount")}
          value={line.discount}
          onType={(discount) => set({ discount })}
        />
      </div>
    </li>
  );
}
