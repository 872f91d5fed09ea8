import type { MoneyTaken } from "./settle";

/**
 * Money for several jobs' invoice, shared out over them, in minor units and the jobs' order: each gets up to what it still owes, and
 * what is over goes to the last. The shares add up to the money. A job that owes nothing, or is owed, gets none of it before.
 */
export function shareOut(minor: number, owedMinor: readonly number[]): number[] {
  let left = minor;
  return owedMinor.map((owed, at) => {
    const share = at === owedMinor.length - 1 ? left : Math.min(left, Math.max(0, owed));
    left -= share;
    return share;
  });
}

/** A part of some money, and the place of its job among the jobs. */
export type SharedPart<P extends MoneyTaken> = P & { readonly job: number };

/**
 * Money by several methods, shared out over jobs: one row for each method and job that gets some of it. Cash rounding stays with the
 * largest share of its method, so that no row is of less than nothing.
 */
export function sharedParts<P extends MoneyTaken>(
  parts: readonly P[],
  owedMinor: readonly number[],
): SharedPart<P>[] {
  let owed = [...owedMinor];
  return parts.flatMap((part) => {
    const shares = shareOut(part.settlesMinor, owed);
    owed = owed.map((minor, job) => minor - (shares[job] ?? 0));
    const rounded = shares.indexOf(Math.max(...shares));
    return shares.flatMap((settlesMinor, job): SharedPart<P>[] => {
      const roundingMinor = job === rounded ? part.roundingMinor : 0;
      if (settlesMinor === 0 && job !== rounded) return [];
      return [{ ...part, amountMinor: settlesMinor + roundingMinor, roundingMinor, settlesMinor, job }];
    });
  });
}

/** A payment as lists show it. */
interface Moved {
  readonly id: number;
  readonly kind: string;
  readonly method: string;
  readonly invoiceId: number | null;
  readonly amountMinor: number;
  readonly roundingMinor: number;
  readonly paidOn: string;
  readonly reference: string;
  readonly at: Date;
}

/** Payments in the order they moved, each as it moved: what was shared out over jobs in one act is one again. */
export function asMoved<T extends Moved>(payments: readonly T[]): T[] {
  const moved = new Map<string, T>();
  for (const row of [...payments].sort((one, other) => one.id - other.id)) {
    // Only payments are shared out, and bounce so; two deposits at one moment are two.
    const act =
      row.kind === "payment" || row.kind === "bounced"
        ? [row.kind, row.at.toISOString(), row.invoiceId, row.method, row.paidOn, row.reference].join("|")
        : String(row.id);
    const before = moved.get(act);
    moved.set(act, {
      ...(before ?? row),
      amountMinor: (before?.amountMinor ?? 0) + row.amountMinor,
      roundingMinor: (before?.roundingMinor ?? 0) + row.roundingMinor,
    });
  }
  return [...moved.values()];
}
