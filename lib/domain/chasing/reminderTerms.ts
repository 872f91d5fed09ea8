import type { TaxMark } from "../tax/rates";

/** The three reminders of a late invoice, in rising tone. */
export const LEVELS = [1, 2, 3] as const;
export type ReminderLevel = (typeof LEVELS)[number];

/** When one of them is written, and what is asked for it. */
export interface LevelTerms {
  readonly level: ReminderLevel;
  /** So many days after the invoice was due; null: it is not written. */
  readonly days: number | null;
  /** Minor units. */
  readonly feeMinor: number;
  /** Written unasked. */
  readonly automatic: boolean;
}

export interface ReminderTerms {
  readonly levels: readonly LevelTerms[];
  /** How a fee is taxed once it is charged on an invoice; empty as work is. */
  readonly feeTaxMark: TaxMark;
}

const as = (level: ReminderLevel, days: number): LevelTerms => ({
  level,
  days,
  feeMinor: 0,
  automatic: false,
});

/** As they are until a shop says otherwise: by hand, without a fee. The days are common practice, no source. */
export const USUAL_TERMS: ReminderTerms = { levels: [as(1, 7), as(2, 21), as(3, 35)], feeTaxMark: "" };
