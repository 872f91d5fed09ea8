import { grossOf, type TaxedAmount } from "./split";

/** One cell of a tax summary: a category at a rate, and how many documents or entries it stands on. */
export interface TaxCell extends TaxedAmount {
  readonly count: number;
}

/** A tax summary: its cells, sorted by category and then by falling rate, and their sums. */
export interface TaxSummary {
  readonly cells: readonly TaxCell[];
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
}

/** Cells of several pieces as one summary. Amounts in minor units. */
export function summaryOf(pieces: readonly TaxCell[]): TaxSummary {
  const found = new Map<string, TaxCell>();
  for (const one of pieces) {
    const key = `${one.category} ${one.rateBp}`;
    const before = found.get(key);
    found.set(key, {
      category: one.category,
      rateBp: one.rateBp,
      netMinor: (before?.netMinor ?? 0) + one.netMinor,
      taxMinor: (before?.taxMinor ?? 0) + one.taxMinor,
      count: (before?.count ?? 0) + one.count,
    });
  }
  const cells = [...found.values()].sort((a, b) =>
    a.category < b.category ? -1 : a.category > b.category ? 1 : b.rateBp - a.rateBp,
  );
  const sum = (of: (cell: TaxCell) => number) => cells.reduce((total, cell) => total + of(cell), 0);
  return {
    cells,
    netMinor: sum((cell) => cell.netMinor),
    taxMinor: sum((cell) => cell.taxMinor),
    grossMinor: sum(grossOf),
  };
}
