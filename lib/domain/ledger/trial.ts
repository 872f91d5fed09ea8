import { type AccountUse, type LedgerAccount, ofTheYear } from "./accounts";
import type { BookedEntry, BookedLine, Chart } from "./book";

/** Days "YYYY-MM-DD"; both ends count. */
export interface LedgerRange {
  readonly from: string;
  readonly to: string;
}

/** What stood on the accounts when the books began here: debits in minor units by code, below zero for credits. */
export interface Beginning {
  /** Null: with the first document. Nothing before that day is booked. */
  readonly startsOn: string | null;
  readonly opening: ReadonlyMap<string, number>;
  /** Month in which the books' year begins, 1 to 12. */
  readonly yearMonth: number;
}

export interface TrialRow {
  readonly account: LedgerAccount;
  readonly openingMinor: number;
  readonly debitMinor: number;
  readonly creditMinor: number;
  readonly closingMinor: number;
}

/** What stands between a shop and a customer, on one account. */
export interface CustomerRow {
  readonly customerId: number;
  readonly code: string;
  readonly openingMinor: number;
  readonly closingMinor: number;
}

/** First day of the books' year that a day lies in. */
export function yearFrom(day: string, yearMonth: number): string {
  const [year = 0, month = 1] = day.split("-").map(Number);
  const begins = month >= yearMonth ? year : year - 1;
  return `${String(begins).padStart(4, "0")}-${String(yearMonth).padStart(2, "0")}-01`;
}

/**
 * Adds entries up by account for a range. `add` takes each entry from the first on, in the order of days, and answers whether it lies
 * in the range. Income and expense of the years before the one that the range begins in stand on the account of prior results.
 * Rows are the accounts by code; the openings, the movements and the closings each add up to nothing.
 */
export function trial(
  { accounts, uses }: Chart,
  { startsOn, opening, yearMonth }: Beginning,
  range: LedgerRange,
) {
  const from = startsOn !== null && startsOn > range.from ? startsOn : range.from;
  const year = yearFrom(from, yearMonth);
  const sums = new Map<string, { opening: number; debit: number; credit: number }>();
  const customers = new Map<string, { customerId: number; code: string; opening: number; moved: number }>();
  const of = (code: string) => {
    const found = sums.get(code) ?? { opening: 0, debit: 0, credit: 0 };
    sums.set(code, found);
    return found;
  };
  const open = (account: LedgerAccount, day: string, minor: number) => {
    const before = ofTheYear(account.kind) && day < year;
    of(before ? uses.priorResult : account.code).opening += minor;
  };
  for (const account of accounts) open(account, startsOn ?? from, opening.get(account.code) ?? 0);

  const count = (line: BookedLine, { customer, day }: BookedEntry, inside: boolean) => {
    if (inside) of(line.account.code)[line.minor < 0 ? "credit" : "debit"] += Math.abs(line.minor);
    else open(line.account, day, line.minor);
    if (!customer || !line.ofCustomer) return;
    const key = `${customer.id} ${line.account.code}`;
    const row = customers.get(key) ?? {
      customerId: customer.id,
      code: line.account.code,
      opening: 0,
      moved: 0,
    };
    customers.set(key, row);
    row[inside ? "moved" : "opening"] += line.minor;
  };

  return {
    /** What the years before the one that the range begins in brought to a use's account, in place of their entries. */
    brought(use: AccountUse, minor: number): void {
      const account = accounts.find(({ code }) => code === uses[use]);
      if (!account) throw new TypeError(`No account takes "${use}".`);
      of(ofTheYear(account.kind) ? uses.priorResult : account.code).opening += minor;
    },
    /** The range as it is booked: not before the books began. */
    from,
    to: range.to,
    add(entry: BookedEntry): boolean {
      if (entry.day > range.to || (startsOn !== null && entry.day < startsOn)) return false;
      const inside = entry.day >= from;
      for (const line of entry.lines) count(line, entry, inside);
      return inside;
    },
    rows(): TrialRow[] {
      return accounts
        .map((account) => {
          const { opening: openingMinor, debit, credit } = of(account.code);
          return {
            account,
            openingMinor,
            debitMinor: debit,
            creditMinor: credit,
            closingMinor: openingMinor + debit - credit,
          };
        })
        .sort((a, b) => (a.account.code < b.account.code ? -1 : 1));
    },
    customers(): CustomerRow[] {
      return [...customers.values()]
        .map(({ customerId, code, opening: openingMinor, moved }) => ({
          customerId,
          code,
          openingMinor,
          closingMinor: openingMinor + moved,
        }))
        .sort((a, b) => a.customerId - b.customerId || (a.code < b.code ? -1 : 1));
    },
  };
}
