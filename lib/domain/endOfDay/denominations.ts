/** What a drawer of one currency is counted by. */
export interface Denominations {
  /** Coins and notes in minor units, the largest first. */
  readonly valuesMinor: readonly number[];
  /** From this value on they are notes; a coin below. */
  readonly notesFromMinor: number;
  readonly source: string;
}

const of = (
  publisher: string,
  notesFromMinor: number,
  valuesMinor: readonly number[],
): readonly [number, readonly number[], string] => [
  notesFromMinor,
  valuesMinor,
  `${publisher}: coins and banknotes in circulation; from memory, 2026-11-01`,
];

const LISTS: Readonly<Record<string, readonly [number, readonly number[], string]>> = {
  AUD: of(
    "Reserve Bank of Australia, Royal Australian Mint",
    500,
    [10000, 5000, 2000, 1000, 500, 200, 100, 50, 20, 10, 5],
  ),
  NZD: of("Reserve Bank of New Zealand", 500, [10000, 5000, 2000, 1000, 500, 200, 100, 50, 20, 10]),
  NOK: of("Norges Bank", 5000, [100000, 50000, 20000, 10000, 5000, 2000, 1000, 500, 100]),
  GBP: of("Bank of England, Royal Mint", 500, [5000, 2000, 1000, 500, 200, 100, 50, 20, 10, 5, 2, 1]),
  EUR: of(
    "European Central Bank",
    500,
    [50000, 20000, 10000, 5000, 2000, 1000, 500, 200, 100, 50, 20, 10, 5, 2, 1],
  ),
  SEK: of("Sveriges Riksbank", 2000, [100000, 50000, 20000, 10000, 5000, 2000, 1000, 500, 200, 100]),
  DKK: of("Danmarks Nationalbank", 5000, [50000, 20000, 10000, 5000, 2000, 1000, 500, 200, 100, 50]),
  CHF: of(
    "Swiss National Bank, Swissmint",
    1000,
    [100000, 20000, 10000, 5000, 2000, 1000, 500, 200, 100, 50, 20, 10, 5],
  ),
  USD: of(
    "Federal Reserve, United States Mint (a dollar is a coin or a note)",
    100,
    [10000, 5000, 2000, 1000, 500, 200, 100, 50, 25, 10, 5, 1],
  ),
  CAD: of("Bank of Canada, Royal Canadian Mint", 500, [10000, 5000, 2000, 1000, 500, 200, 100, 25, 10, 5]),
};

/** What a drawer of a currency (ISO 4217) holds, the largest first; null where its list is not kept here: then it is counted as one sum. */
export function denominationsOf(currency: string): Denominations | null {
  const found = Object.hasOwn(LISTS, currency) ? LISTS[currency] : undefined;
  if (!found) return null;
  const [notesFromMinor, valuesMinor, source] = found;
  return { notesFromMinor, valuesMinor, source };
}
