import { DateText } from "@/app/_ui/DateText";
import { Money } from "@/app/_ui/Money";
import type { Counted } from "./Proposed";

interface Line {
  readonly bookedOn: string;
  readonly amountMinor: number;
  readonly text: string;
  readonly payer: string;
}

/** A line as the bank wrote it: day and amount, who, and what they said. */
export function LineText({ line, currency, locale }: Counted & { line: Line }) {
  return (
    <>
      <p className="flex items-baseline justify-between gap-4">
        <DateText date={line.bookedOn} locale={locale} />
        <strong>
          <Money minor={line.amountMinor} currency={currency} locale={locale} />
        </strong>
      </p>
      <p className="break-words">{[line.payer, line.text].filter(Boolean).join(": ") || "no text"}</p>
    </>
  );
}
