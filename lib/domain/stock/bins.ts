import { Refusal } from "../refusal";

/** How much of one part lies in one bin, in thousandths of its unit. The bin "" is no bin. */
export interface Lying {
  readonly bin: string;
  readonly onHandMilli: number;
}

export interface Share {
  readonly bin: string;
  /** Thousandths, above nothing. */
  readonly quantityMilli: number;
}

/** The order in which bins are emptied: the one asked for, the usual one, then the fullest; equally full ones by name. */
export function fetchOrder(lying: readonly Lying[], home: string, first = home): Lying[] {
  const rank = (bin: string) => (bin === first ? 0 : bin === home ? 1 : 2);
  return lying
    .filter((one) => one.onHandMilli > 0)
    .sort(
      (a, b) =>
        rank(a.bin) - rank(b.bin) ||
        b.onHandMilli - a.onHandMilli ||
        (a.bin < b.bin ? -1 : a.bin > b.bin ? 1 : 0),
    );
}

/**
 * From which bins a quantity (thousandths, above nothing) is fetched: as much as there is from each, in the order of
 * `fetchOrder`. Refuses where they hold less together.
 */
export function fetchFrom(
  lying: readonly Lying[],
  home: string,
  quantityMilli: number,
  first = home,
): Share[] {
  const shares: Share[] = [];
  let left = quantityMilli;
  for (const one of fetchOrder(lying, home, first)) {
    if (left <= 0) break;
    const taken = Math.min(left, one.onHandMilli);
    shares.push({ bin: one.bin, quantityMilli: taken });
    left -= taken;
  }
  if (left > 0)
    throw new Refusal("The bins hold less than that.", "Take less, or count the bins.", {}, "conflict");
  return shares;
}

/** Where a part goes that is put away: its usual bin; without one, the named bin where most of it lies; else no bin. */
export const putInto = (lying: readonly Lying[], home: string): string =>
  home ||
  (fetchOrder(
    lying.filter((one) => one.bin !== ""),
    "",
  )[0]?.bin ??
    "");

/** A bin as people say it: its name, or that there is none. */
export const binText = (bin: string): string => (bin === "" ? "no bin" : `bin ${bin}`);
