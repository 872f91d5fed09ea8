import { taxOfShown } from "./inclusive";
import { percent } from "./round";

/** A line, or a document allowance or charge, as far as totals need it. Allowances and charges count as positive. */
export interface DocumentAmount {
  readonly netMinor: number;
  /** The amount with tax that was shown; needed where prices include tax. */
  readonly shownMinor?: number;
  readonly category: string;
  readonly rateBp: number;
}

export interface DocumentInput {
  readonly lines: readonly DocumentAmount[];
  readonly allowances?: readonly DocumentAmount[];
  readonly charges?: readonly DocumentAmount[];
  readonly prepaidMinor?: number;
  readonly roundingMinor?: number;
  readonly pricesIncludeTax?: boolean;
}

/** BG-23: one category and rate with its taxable amount (BT-116) and tax (BT-117). */
export interface TaxGroup {
  readonly category: string;
  readonly rateBp: number;
  readonly taxableMinor: number;
  readonly taxMinor: number;
}

/** BG-22 in minor units; the comments give the business term. */
export interface DocumentTotals {
  /** BT-106 */ readonly lineSumMinor: number;
  /** BT-107 */ readonly allowanceMinor: number;
  /** BT-108 */ readonly chargeMinor: number;
  /** BT-109 */ readonly netMinor: number;
  /** BT-110 */ readonly taxMinor: number;
  /** BT-112 */ readonly grossMinor: number;
  /** BT-113 */ readonly prepaidMinor: number;
  /** BT-114 */ readonly roundingMinor: number;
  /** BT-115 */ readonly dueMinor: number;
  readonly taxes: readonly TaxGroup[];
}

const sum = (amounts: readonly DocumentAmount[]) => amounts.reduce((total, a) => total + a.netMinor, 0);
const negated = (a: DocumentAmount): DocumentAmount => ({
  ...a,
  netMinor: 0 - a.netMinor,
  ...(a.shownMinor === undefined ? {} : { shownMinor: 0 - a.shownMinor }),
});

/**
 * Taxes per category and rate, sorted by category and then by falling rate. Exclusive prices: BT-117 =
 * BT-116 x rate (BR-CO-17). Inclusive prices: what is shown less its net.
 */
export function taxGroups(amounts: readonly DocumentAmount[], pricesIncludeTax: boolean): TaxGroup[] {
  const groups = Map.groupBy(amounts, (a) => `${a.category} ${a.rateBp}`);
  return [...groups.values()]
    .map((members) => {
      const { category, rateBp } = members[0] as DocumentAmount;
      const taxableMinor = sum(members);
      const taxMinor = pricesIncludeTax ? taxOfShown(members) : percent(taxableMinor, rateBp);
      return { category, rateBp, taxableMinor, taxMinor };
    })
    .sort((a, b) => (a.category < b.category ? -1 : a.category > b.category ? 1 : b.rateBp - a.rateBp));
}

/**
 * Totals of a quote, invoice or credit note. Source: EN 16931-1, BR-CO-10, 11, 12, 13, 14, 15, 16 and 17.
 * Nothing here depends on the order of the lines.
 */
export function documentTotals(input: DocumentInput): DocumentTotals {
  const { lines, allowances = [], charges = [], prepaidMinor = 0, roundingMinor = 0 } = input;
  const lineSumMinor = sum(lines);
  const allowanceMinor = sum(allowances);
  const chargeMinor = sum(charges);
  const netMinor = lineSumMinor - allowanceMinor + chargeMinor;
  const taxes = taxGroups(
    [...lines, ...allowances.map(negated), ...charges],
    input.pricesIncludeTax ?? false,
  );
  const taxMinor = taxes.reduce((total, t) => total + t.taxMinor, 0);
  const grossMinor = netMinor + taxMinor;
  const dueMinor = grossMinor - prepaidMinor + roundingMinor;
  return {
    lineSumMinor,
    allowanceMinor,
    chargeMinor,
    netMinor,
    taxMinor,
    grossMinor,
    prepaidMinor,
    roundingMinor,
    dueMinor,
    taxes,
  };
}
