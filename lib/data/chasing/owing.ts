import type { ShopHandle } from "@/lib/db/shop";
import { type Column, sumColumns } from "@/lib/domain/chasing/accountLines";
import { AGES } from "@/lib/domain/chasing/age";
import { type AccountLine, accountLines } from "./accounts";

/** So many customers stand on a page. */
const PAGE = 50;

export interface OwingCustomer {
  /** Null: invoices without a customer. */
  readonly id: number | null;
  readonly name: string;
  readonly columns: Readonly<Partial<Record<Column, number>>>;
  readonly totalMinor: number;
}

/** What customers owed at the end of a day, by customer: the most overdue first, a page at a time; sums are over all of them. */
export async function listOwing(shop: ShopHandle, day: string, after = 0) {
  const { lines, more } = await accountLines(shop.read, day);
  const customers = byCustomer(lines);
  const at = after === 0 ? 0 : customers.findIndex((one) => one.id === after) + 1;
  const rows = customers.slice(at, at + PAGE);
  return {
    rows,
    next: customers.length > at + PAGE ? (rows.at(-1)?.id ?? null) : null,
    count: customers.length,
    sums: sumColumns(lines),
    more,
  };
}

const isFavour = ({ column }: AccountLine) => !AGES.some((age) => age === column);

/** The documents behind it: of one customer, of one column, or of both; the longest past due first. */
export async function listOwingDocuments(
  shop: ShopHandle,
  day: string,
  narrow: { readonly customerId?: number | undefined; readonly column?: Column | undefined },
) {
  const { lines, more } = await accountLines(shop.read, day, narrow.customerId);
  const kept = lines.filter((line) => narrow.column === undefined || line.column === narrow.column);
  return {
    lines: [...kept].sort(
      (one, two) => Number(isFavour(one)) - Number(isFavour(two)) || two.daysPast - one.daysPast,
    ),
    sums: sumColumns(kept),
    more,
  };
}

function byCustomer(lines: readonly AccountLine[]): OwingCustomer[] {
  const groups = Map.groupBy(lines, (line) => line.customer?.id ?? 0);
  return [...groups.values()]
    .map((own) => {
      const customer = own[0]?.customer ?? null;
      return { id: customer?.id ?? null, name: customer?.name ?? "no customer", ...sumColumns(own) };
    })
    .sort(
      (one, two) => overdue(two) - overdue(one) || two.totalMinor - one.totalMinor || idOf(one) - idOf(two),
    );
}

const idOf = (one: OwingCustomer) => one.id ?? 0;
const overdue = ({ columns }: OwingCustomer): number =>
  AGES.reduce((sum, age) => (age === "notDue" ? sum : sum + (columns[age] ?? 0)), 0);
