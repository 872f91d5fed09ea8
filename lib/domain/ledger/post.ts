import { movedMinor, settled } from "../invoices/held";
import { allocate } from "../money/allocate";
import type { AccountUse } from "./accounts";
import type {
  DocumentIssued,
  DrawerChanged,
  LedgerEvent,
  MoneyMoved,
  Position,
  StockCause,
  StockMoved,
  TaxedNet,
} from "./events";

/** How a line of income was taxed: the tax that belongs to its net. */
export interface LineTax {
  readonly category: string;
  readonly rateBp: number;
  /** Signed as the line is: below zero is a credit. */
  readonly taxMinor: number;
}

/** One line of an entry: a debit in minor units, below zero a credit. */
export interface Posting {
  readonly use: AccountUse;
  readonly minor: number;
  readonly tax?: LineTax;
}

export interface LedgerEntry {
  readonly event: LedgerEvent;
  readonly lines: readonly Posting[];
}

/**
 * Answers a function that posts events one after the other, in the order of their days. Each position (an invoice, a sale) is what
 * its documents came to less what was paid: above zero it stands in the receivable account, below zero in the customers' balances, so
 * that those two accounts are the sums of what invoices are owed and are paid too much. Once a credit note leaves nothing of an
 * invoice, its money is held for the jobs, as deposits are. A write-off takes the whole amount to the loss: the tax stays as it was
 * invoiced. Every entry adds up to nothing; an event that changes no account answers no lines.
 * Source: common practice of double entry; what is owed and held is as lib/domain/invoices has it.
 */
export function poster(): (event: LedgerEvent) => LedgerEntry {
  const owed = new Map<Position, number>();
  const closed = new Set<Position>();

  const change = (position: Position | null, minor: number): Posting[] => {
    if (position === null || closed.has(position)) return [{ use: "deposits", minor }];
    const before = owed.get(position) ?? 0;
    const after = before + minor;
    owed.set(position, after);
    const receivable = Math.max(0, after) - Math.max(0, before);
    return [
      { use: "receivable", minor: receivable },
      { use: "customerBalance", minor: minor - receivable },
    ];
  };

  const close = (position: Position): Posting[] => {
    const rest = owed.get(position) ?? 0;
    const lines = change(position, 0 - rest);
    closed.add(position);
    return [...lines, { use: "deposits", minor: rest }];
  };

  return (event) => ({
    event,
    lines: merged(
      event.is === "document"
        ? document(event, change, close)
        : event.is === "payment"
          ? payment(event, change)
          : event.is === "drawer"
            ? drawer(event)
            : stock(event),
    ),
  });
}

type Change = (position: Position | null, minor: number) => Posting[];

function document(doc: DocumentIssued, change: Change, close: (position: Position) => Posting[]): Posting[] {
  // A sale's documents take nothing off and let nothing go: its money is on the same position.
  const ofSale = doc.position.startsWith("sale:");
  const prepaid = ofSale ? 0 : doc.prepaidMinor;
  return [
    { use: "deposits", minor: prepaid },
    ...change(doc.position, doc.grossMinor - prepaid),
    ...doc.nets.flatMap(income),
    ...(doc.closes && !ofSale ? close(doc.position) : []),
  ];
}

const WORK = { taxed: "workTaxed", zero: "workZero", exempt: "workExempt" } as const;
const PARTS = { taxed: "partsTaxed", zero: "partsZero", exempt: "partsExempt" } as const;

/** Zero-rated: Z, G and K of UNCL5305. Without tax: E, O and AE. */
const treatment = ({ category, rateBp }: TaxedNet) =>
  rateBp !== 0 ? "taxed" : ["Z", "G", "K", "S"].includes(category) ? "zero" : "exempt";

function income(net: TaxedNet): Posting[] {
  const { category, rateBp, workMinor, partsMinor, taxMinor } = net;
  const weights = [Math.abs(workMinor), Math.abs(partsMinor)];
  const [ofWork = 0, ofParts = 0] =
    partsMinor === 0 ? [taxMinor, 0] : workMinor === 0 ? [0, taxMinor] : allocate(taxMinor, weights);
  const how = treatment(net);
  const tax = (minor: number): LineTax => ({ category, rateBp, taxMinor: 0 - minor || 0 });
  return [
    { use: WORK[how], minor: 0 - workMinor, tax: tax(ofWork) },
    { use: PARTS[how], minor: 0 - partsMinor, tax: tax(ofParts) },
    { use: "tax", minor: 0 - taxMinor },
  ];
}

/** The account that money of a method goes to. */
export const METHODS: Readonly<Record<string, AccountUse>> = {
  cash: "cash",
  card: "card",
  transfer: "transfer",
  balance: "customerBalance",
};

function payment(row: MoneyMoved, change: Change): Posting[] {
  const settles = settled(row);
  if (row.kind === "writeOff")
    return [{ use: "writeOff", minor: settles }, ...change(row.position, 0 - settles)];
  const moved = movedMinor(row);
  const use = METHODS[row.method];
  if (!use) throw new Error(`Payment ${row.id} was made by "${row.method}", which has no account.`);
  return [
    { use, minor: moved },
    { use: "rounding", minor: settles - moved },
    ...change(row.position, 0 - settles),
  ];
}

const drawer = ({ differenceMinor, movedMinor }: DrawerChanged): Posting[] => [
  { use: "cash", minor: differenceMinor + movedMinor },
  { use: "cashDifference", minor: 0 - differenceMinor },
  { use: "drawerMoves", minor: 0 - movedMinor },
];

/** The account that stock is booked against, by its cause. */
export const AGAINST: Readonly<Record<StockCause, AccountUse>> = {
  received: "goodsReceived",
  used: "costOfGoods",
  opening: "openingStock",
  difference: "stockDifferences",
};

const stock = ({ cause, valueMinor }: StockMoved): Posting[] => [
  { use: "stock", minor: valueMinor },
  { use: AGAINST[cause], minor: 0 - valueMinor },
];

/** Lines of one use, and of one tax, as one; lines of nothing left out. */
function merged(lines: readonly Posting[]): Posting[] {
  const key = ({ use, tax }: Posting) => (tax ? `${use} ${tax.category} ${tax.rateBp}` : use);
  return [...Map.groupBy(lines, key).values()].flatMap((same) => {
    const [first] = same as [Posting];
    const minor = same.reduce((sum, line) => sum + line.minor, 0);
    const taxMinor = same.reduce((sum, line) => sum + (line.tax?.taxMinor ?? 0), 0);
    if (minor === 0 && taxMinor === 0) return [];
    return [{ use: first.use, minor, ...(first.tax ? { tax: { ...first.tax, taxMinor } } : {}) }];
  });
}
