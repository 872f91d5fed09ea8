import { State } from "@/app/_ui/State";
import type { InvoiceStanding } from "@/lib/domain/invoices/state";
import { STANDING_WORDS } from "@/lib/schemas/invoices";

/** "late, 12 days", "paid": the word that a list and a page say alike. */
export function standingText(standing: InvoiceStanding, lateDays: number): string {
  const { word } = STANDING_WORDS[standing];
  return standing === "late" ? `${word}, ${lateDays} ${lateDays === 1 ? "day" : "days"}` : word;
}

/** Where an invoice stands, as a word and a shape. */
export function Standing({ standing, lateDays }: { standing: InvoiceStanding; lateDays: number }) {
  const { shape, tone } = STANDING_WORDS[standing];
  return (
    <State shape={shape} tone={tone}>
      {standingText(standing, lateDays)}
    </State>
  );
}
