import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { ACCOUNT_KINDS, type LedgerAccount } from "@/lib/domain/ledger/accounts";
import type { Chart } from "@/lib/domain/ledger/book";
import { startingChart } from "@/lib/domain/ledger/charts";
import type { Beginning } from "@/lib/domain/ledger/trial";

/** Accounts of one shop: more are no workshop's. Judgement. */
export const MOST_ACCOUNTS = 200;

/** How a shop's books are kept. */
export interface Book {
  readonly chart: Chart;
  readonly beginning: Beginning;
  readonly stockToo: boolean;
  /** Where the starting chart is from; null once the shop has changed it. */
  readonly source: string | null;
  readonly version: number;
}

type Db = Pick<ShopTx, "settings" | "ledgerBook" | "ledgerAccount" | "ledgerUse">;

/** The shop's own chart, or its country's starting chart as long as nothing was changed. */
export async function readBook(shop: ShopHandle): Promise<Book> {
  return bookIn(shop.read);
}

/** As readBook, out of a transaction of the caller's. */
export async function bookIn(db: Db): Promise<Book> {
  const [{ country }, book, rows, uses] = await Promise.all([
    db.settings.findUniqueOrThrow({ where: { id: 1 }, select: { country: true } }),
    db.ledgerBook.findUnique({ where: { id: 1 } }),
    db.ledgerAccount.findMany({ orderBy: { code: "asc" }, take: MOST_ACCOUNTS }),
    db.ledgerUse.findMany({ orderBy: { use: "asc" } }),
  ]);
  const start = startingChart(country);
  if (!book)
    return {
      chart: { accounts: start.accounts, uses: start.uses },
      beginning: { startsOn: null, opening: new Map(), yearMonth: start.yearMonth },
      stockToo: false,
      source: start.source,
      version: 1,
    };
  const kept = new Set(rows.map((row) => row.code));
  const codes = new Map(rows.map((row) => [row.id, row.code]));
  return {
    chart: {
      accounts: [...rows.map(accountOf), ...missingAccounts(start, uses, kept)],
      // A use that came after the chart was kept goes where the starting chart has it.
      uses: { ...start.uses, ...Object.fromEntries(uses.map((row) => [row.use, codes.get(row.accountId)])) },
    },
    beginning: {
      startsOn: book.startsOn,
      opening: new Map(rows.map((row) => [row.code, row.openingMinor])),
      yearMonth: book.yearMonth,
    },
    stockToo: book.stockToo,
    source: null,
    version: book.version,
  };
}

/** Accounts of the starting chart that take what the shop has not chosen an account for. */
function missingAccounts(
  { accounts, uses }: Chart,
  chosen: readonly { readonly use: string }[],
  kept: ReadonlySet<string>,
): LedgerAccount[] {
  const known = new Set(chosen.map((row) => row.use));
  const needed = new Set(Object.entries(uses).flatMap(([use, code]) => (known.has(use) ? [] : [code])));
  return accounts.filter(({ code }) => needed.has(code) && !kept.has(code));
}

function accountOf(row: {
  code: string;
  name: string;
  kind: string;
  groupCategory: string;
  groupCode: string;
}): LedgerAccount {
  const kind = ACCOUNT_KINDS.find((one) => one === row.kind);
  if (!kind) throw new Error(`Account ${row.code} is of no kind: ${row.kind}.`);
  const { code, name, groupCategory, groupCode } = row;
  return { code, name, kind, groupCategory, groupCode };
}
