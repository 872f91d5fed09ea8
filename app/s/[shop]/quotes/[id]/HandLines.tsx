import { Form } from "@/app/_ui/Form";
import { moneyText } from "@/app/_ui/format";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { DraftView } from "@/lib/data/quotes/draftView";
import { TAX_MARK_WORDS } from "@/lib/schemas/parts";
import { quantityText } from "@/lib/schemas/quantity";
import { takeLineOff } from "../actions";
import type { Given } from "./given";

/** The lines written by hand, each to be taken off. */
export function HandLines({
  slug,
  hidden,
  currency,
  lines,
  locale,
}: Given & { lines: DraftView["agreed"]["lines"]; locale: string }) {
  if (lines.length === 0) return null;
  return (
    <ul className="mb-3">
      {lines.map((line) => (
        <li key={line.key} className="flex flex-wrap items-baseline gap-x-4 border-hair border-b py-2">
          <span className="min-w-0 flex-1">
            {line.name}
            <span className="block text-[14px] text-soft">
              {line.kind === "outside" ? "work bought outside" : "written by hand"}
              {line.quantityMilli !== undefined &&
                `, ${quantityText(line.quantityMilli, line.unit ?? "each")} ×`}
              {line.taxMark && `, ${TAX_MARK_WORDS[line.taxMark]}`}
            </span>
          </span>
          <span className="font-mono">{moneyText(line.priceMinor, currency, locale)}</span>
          <Form
            action={takeLineOff}
            shop={slug}
            hidden={{ ...hidden, line: line.key }}
            label={`Take off ${line.name}`}
          >
            <SubmitButton tone="quiet">
              Take off<span className="sr-only"> {line.name}</span>
            </SubmitButton>
          </Form>
        </li>
      ))}
    </ul>
  );
}
