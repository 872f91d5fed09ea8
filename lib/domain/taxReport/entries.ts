import { changeOf, shareOfCharged, summed, type TaxedAmount } from "./split";

/** What a line of a tax summary stands on: a document, money that moved, a rest written off, or money before its invoice. */
export type EntrySource = "document" | "money" | "writeOff" | "deposit";

/** What happened to an invoice (with its credit notes) or a counter sale, in the order it was recorded. Days are the shop's own. */
export type Happening =
  /** A document was issued: what it charges, and the money of before that it takes off. */
  | {
      readonly kind: "document";
      readonly on: string;
      readonly ref: string;
      readonly taxes: readonly TaxedAmount[];
      readonly heldMinor: number;
    }
  /** Money came (above zero) or went back, or never came; in minor units, without rounding to coins. */
  | { readonly kind: "money"; readonly on: string; readonly ref: string; readonly minor: number }
  /** A rest was written off, or that was taken back (below zero). */
  | { readonly kind: "writeOff"; readonly on: string; readonly ref: string; readonly minor: number };

/** One change of what is to be reported: on which day, by what. `ref` is the happening's own. */
export interface TaxEntry extends TaxedAmount {
  readonly on: string;
  readonly ref: string;
  readonly source: EntrySource;
}

/**
 * What counts by money: the share of what is charged that is paid, as it changes with each happening. Money above what is charged is the
 * customer's, and counts once it is taken off something. Once all is paid the entries add up to the documents, to the cent.
 * `off` is the share written off, which no money stands for: with it, what is settled adds up to the documents.
 */
export function entriesByMoney(happened: readonly Happening[]): {
  readonly paid: TaxEntry[];
  readonly off: TaxEntry[];
} {
  const paid: TaxEntry[] = [];
  const off: TaxEntry[] = [];
  let charged: TaxedAmount[] = [];
  let money = 0;
  let written = 0;
  let before = { paid: [] as TaxedAmount[], settled: [] as TaxedAmount[] };
  for (const one of happened) {
    if (one.kind === "document") charged = summed([...charged, ...one.taxes]);
    if (one.kind === "document") money += one.heldMinor;
    if (one.kind === "money") money += one.minor;
    if (one.kind === "writeOff") written += one.minor;
    const now = {
      paid: shareOfCharged(money, charged),
      settled: shareOfCharged(money + written, charged),
    };
    const of = { on: one.on, ref: one.ref, source: one.kind };
    paid.push(...changeOf(before.paid, now.paid).map((change) => ({ ...change, ...of })));
    const offBefore = changeOf(before.paid, before.settled);
    off.push(...changeOf(offBefore, changeOf(now.paid, now.settled)).map((change) => ({ ...change, ...of })));
    before = now;
  }
  return { paid, off };
}

/** What happened to a job's money before, and between, its invoices. */
export type JobHappening =
  | { readonly kind: "money"; readonly on: string; readonly ref: string; readonly minor: number }
  /** It was invoiced, or its invoice was taken back in full. */
  | { readonly kind: "invoiced" | "takenBack"; readonly on: string; readonly ref: string };

/**
 * Money held for a job without an invoice, as a share of what was agreed: it comes in as it is paid, and goes out again as the job is
 * invoiced, when the invoice counts instead. More than was agreed counts as what was agreed.
 */
export function entriesOfDeposits(
  happened: readonly JobHappening[],
  agreed: readonly TaxedAmount[],
): TaxEntry[] {
  let held = 0;
  let invoiced = false;
  let before: TaxedAmount[] = [];
  return happened.flatMap((one) => {
    if (one.kind === "money") held += one.minor;
    else invoiced = one.kind === "invoiced";
    const now = invoiced || held <= 0 ? [] : shareOfCharged(held, agreed);
    const changes = changeOf(before, now);
    before = now;
    return changes.map((change): TaxEntry => ({ ...change, on: one.on, ref: one.ref, source: "deposit" }));
  });
}
