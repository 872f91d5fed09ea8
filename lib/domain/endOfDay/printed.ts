import type { PaymentKind } from "../invoices/held";
import type { DocumentKind, PrintedSeller } from "../invoices/printed";
import type { Compared, Pieces } from "./drawer";
import type { MethodTakings } from "./takings";

/** A row of money on a day's sheet: no name stands on it, its documents have them. */
export interface PrintedTaking {
  readonly id: number;
  /** When it was recorded, as an instant. */
  readonly at: string;
  readonly paidOn: string;
  readonly kind: PaymentKind;
  readonly method: string;
  /** As it moved: below zero for money that went out. */
  readonly movedMinor: number;
  readonly roundingMinor: number;
  readonly document: { readonly kind: DocumentKind; readonly written: string } | null;
  readonly job: string | null;
}

/** Money put into the drawer or (below zero) taken out of it. */
export interface PrintedMove {
  readonly day: string;
  readonly amountMinor: number;
  readonly reason: string;
  readonly by: string;
}

/** Everything the sheet of a day's end prints. Money in minor units, days as "YYYY-MM-DD". */
export interface PrintedDay {
  readonly day: string;
  /** The first day that it covers: another one where days before had no end of their own. */
  readonly fromDay: string;
  readonly closedAt: string;
  readonly zone: string;
  readonly closedBy: string;
  readonly seller: PrintedSeller;
  readonly country: string;
  readonly locale: string;
  readonly currency: string;
  readonly takings: readonly MethodTakings[];
  readonly floatMinor: number;
  readonly moves: readonly PrintedMove[];
  readonly drawer: Compared;
  /** Empty where one sum was entered. */
  readonly pieces: readonly Pieces[];
  readonly leftMinor: number;
  readonly takenMinor: number;
  /** Null where nobody read the terminal's total off. */
  readonly terminal: Compared | null;
  readonly payments: readonly PrintedTaking[];
}
