import { nameKey } from "@/lib/domain/imports/likeness";
import type { BikeRow } from "@/lib/domain/imports/rowTypes";
import type { ReadRow } from "@/lib/domain/imports/types";
import { searchKey } from "@/lib/domain/searchKey";
import { fetched } from "../common/chunks";
import { otherKeys } from "./known";
import type { Reader } from "./types";

export interface Owner {
  readonly id: number;
  readonly name: string;
}

/** Finds owners by key, else by a name that only one customer has. */
export async function ownersOf(reader: Reader, rows: readonly ReadRow<BikeRow>[]) {
  const keys = [...new Set(rows.flatMap((row) => row.values.customerKey ?? []))];
  const byKey = new Map(
    (
      await fetched(keys, (some) =>
        reader.customer.findMany({
          where: { importKey: { in: some } },
          select: { id: true, name: true, importKey: true },
          orderBy: { id: "asc" },
        }),
      )
    ).map((c) => [c.importKey, c]),
  );
  const also = await otherKeys(reader, "customer", keys);
  const byId = new Map(
    (
      await fetched([...new Set(also.values())], (some) =>
        reader.customer.findMany({
          where: { id: { in: some } },
          select: { id: true, name: true },
          orderBy: { id: "asc" },
        }),
      )
    ).map((c) => [c.id, c]),
  );
  const names = [
    ...new Set(rows.flatMap((row) => (row.values.customerKey ? [] : (row.values.customerName ?? [])))),
  ];
  const exactly = await fetched(names, (some) =>
    reader.customer.findMany({
      where: { name: { in: some } },
      select: { id: true, name: true },
      orderBy: { id: "asc" },
    }),
  );
  const found = new Set(exactly.map((c) => c.name));
  // Written otherwise than here: compared without order, case and marks, which no index knows.
  const loosely = names.some((name) => !found.has(name)) ? await allNames(reader) : [];
  const byName = Map.groupBy(exactly, (c) => c.name);
  const byWords = Map.groupBy(loosely, (c) => nameKey(c.name));
  return ({ values }: ReadRow<BikeRow>): Owner | { field: string; wrong: string; remedy: string } => {
    if (values.customerKey)
      return (
        byKey.get(values.customerKey) ??
        byId.get(also.get(values.customerKey) ?? 0) ?? {
          field: "customerKey",
          wrong: `is no customer's key here`,
          remedy: "Bring in the customers first, or mend the key.",
        }
      );
    const name = values.customerName ?? "";
    const same = byName.get(name) ?? byWords.get(nameKey(name)) ?? [];
    const [only] = same;
    if (only && same.length === 1) return only;
    return only
      ? {
          field: "customerName",
          wrong: `is the name of ${same.length} customers`,
          remedy: "Give the customer's key instead.",
        }
      : {
          field: "customerName",
          wrong: "is no customer here",
          remedy: "Add the customer first, or write the name exactly as it stands here.",
        };
  };
}

const PAGE = 500;

async function allNames(reader: Reader): Promise<Owner[]> {
  const all: Owner[] = [];
  for (let after = 0; ; ) {
    const page = await reader.customer.findMany({
      where: { id: { gt: after } },
      select: { id: true, name: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    all.push(...page);
    const last = page.at(-1);
    if (!last || page.length < PAGE) return all;
    after = last.id;
  }
}

export interface Card {
  readonly id: number;
  readonly make: string;
  readonly model: string;
  readonly yearFrom: number | null;
  readonly yearTo: number | null;
  readonly carburettors: number;
}

export const modelKey = (make: string, model: string): string => searchKey(make, model);

/** The card of a make and model whose years hold the bike's; without a year the newest. */
export function cardFor(cards: readonly Card[], year: number | undefined): Card | undefined {
  const fits = cards.filter(
    (card) => year === undefined || ((card.yearFrom ?? 0) <= year && year <= (card.yearTo ?? 9999)),
  );
  return fits.reduce<Card | undefined>(
    (best, card) => (!best || (card.yearFrom ?? 0) > (best.yearFrom ?? 0) ? card : best),
    undefined,
  );
}
