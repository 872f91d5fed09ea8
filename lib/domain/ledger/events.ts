import type { PaidRow } from "../invoices/held";
import type { DocumentKind } from "../invoices/printed";

/** Where money and documents meet: an invoice of jobs, or a counter sale with all its documents. Null: a job before its invoice. */
export type Position = `invoice:${number}` | `sale:${number}`;

export interface LedgerCustomer {
  readonly id: number;
  readonly name: string;
}

/** Where what happened opens; the stock and the list of closed days (id 0) are one place each. */
export interface EntrySource {
  readonly noun: "invoice" | "job" | "stock" | "endOfDay";
  readonly id: number;
}

interface Happened {
  readonly id: number;
  readonly source: EntrySource;
  /** Local day, "YYYY-MM-DD". */
  readonly day: string;
  readonly customer: LedgerCustomer | null;
}

/** One category and rate of a document, its net shared out over work and parts. In minor units, below zero on a credit note. */
export interface TaxedNet {
  readonly category: string;
  readonly rateBp: number;
  readonly workMinor: number;
  readonly partsMinor: number;
  readonly taxMinor: number;
}

/** An issued invoice, receipt or credit note. */
export interface DocumentIssued extends Happened {
  readonly is: "document";
  readonly kind: DocumentKind;
  readonly written: string;
  readonly grossMinor: number;
  /** Deposits taken off it. */
  readonly prepaidMinor: number;
  readonly position: Position;
  /** A credit note that leaves nothing of its invoice: what was paid of it is held for its jobs again. */
  readonly closes: boolean;
  readonly nets: readonly TaxedNet[];
}

/** A row of the payments. */
export interface MoneyMoved extends Happened, PaidRow {
  readonly is: "payment";
  readonly method: string;
  readonly position: Position | null;
  /** What it is about: "invoice 2001", "job 601". */
  readonly about: string;
  readonly reference: string;
}

export const STOCK_CAUSES = ["received", "used", "opening", "difference"] as const;
export type StockCause = (typeof STOCK_CAUSES)[number];

/** The stock's moves of a day for one job, sale or other cause, at cost. */
export interface StockMoved extends Happened {
  readonly is: "stock";
  readonly cause: StockCause;
  /** What came in, in minor units; below zero for what went out. */
  readonly valueMinor: number;
  readonly about: string;
}

/** The drawer counted at the end of a day, or money put into it or taken out that pays nothing. */
export interface DrawerChanged extends Happened {
  readonly is: "drawer";
  readonly what: "count" | "move";
  /** What was counted over what was expected; below zero for what is missing. */
  readonly differenceMinor: number;
  /** What was put in; below zero for what left the drawer. */
  readonly movedMinor: number;
  readonly reason: string;
}

export type LedgerEvent = DocumentIssued | MoneyMoved | StockMoved | DrawerChanged;

/** Where an event stands among all others of its shop. */
export interface Place {
  readonly day: string;
  readonly turn: number;
  readonly id: number;
}

export const placeOf = ({ day, is, id }: LedgerEvent): Place => ({ day, turn: TURN[is], id });

/** The order of two places: below zero where the first comes first. */
export const byPlace = (a: Place, b: Place): number =>
  a.day === b.day ? a.turn - b.turn || a.id - b.id : a.day < b.day ? -1 : 1;

const TURN = { document: 0, payment: 1, drawer: 2, stock: 3 } as const;

/**
 * The order in which events are posted: by day, documents before money, each in the order they were recorded. What a day's entries say
 * thus depends on nothing that is dated later, so that a closed period stays as it was.
 */
export const inOrder = (a: LedgerEvent, b: LedgerEvent): number => byPlace(placeOf(a), placeOf(b));
