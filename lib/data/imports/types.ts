import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { ReadRow, RowNote, RowProblem } from "@/lib/domain/imports/types";

/** What reading needs: a transaction, or the shop's reader for a look without writing. */
export type Reader = Pick<ShopTx, "customer" | "bike" | "part" | "modelCard" | "move">;

/** What bringing rows in would do, decided against what the shop has now. */
export interface Decision {
  readonly added: number;
  readonly changed: number;
  readonly unchanged: number;
  readonly problems: readonly RowProblem[];
  readonly notes: readonly RowNote[];
  /** Does it; called only when there are no problems. */
  store(tx: ShopTx, shop: ShopHandle): Promise<void>;
}

export type Decide<T> = (
  reader: Reader,
  rows: readonly ReadRow<T>[],
  column: (field: string) => string,
) => Promise<Decision>;

/** Rows asked for or written at once: more in one statement would hold the event loop (500 rows took a tenth of a second). */
export const CHUNK = 50;

export function chunks<T>(all: readonly T[], size = CHUNK): T[][] {
  return Array.from({ length: Math.ceil(all.length / size) }, (_, at) =>
    all.slice(at * size, (at + 1) * size),
  );
}

/** Fetches rows for many keys, some hundreds at a time. */
export async function fetched<K, R>(keys: readonly K[], fetch: (some: K[]) => Promise<R[]>): Promise<R[]> {
  const all: R[] = [];
  for (const some of chunks(keys)) all.push(...(await fetch(some)));
  return all;
}

type Plain = string | number | boolean | null;
export type Changes = Record<string, Plain>;

/** The filled values of a row that differ from what is stored: a blank cell leaves what is there. */
export function differing(
  stored: Readonly<Record<string, unknown>>,
  values: Readonly<Record<string, unknown>>,
): Changes {
  return Object.fromEntries(
    Object.entries(values).filter(
      ([key, value]) => value !== undefined && key in stored && stored[key] !== value,
    ),
  ) as Changes;
}

/** Filled values only. */
export function filledOf<T extends object>(values: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}

export interface Change {
  readonly id: number;
  readonly version: number;
  readonly from: Changes;
  readonly to: Changes;
}

/** Tells many imported changes to the audit trail as an edit would have, so that a half-typed form learns of them. */
export async function auditChanges(
  tx: ShopTx,
  shop: ShopHandle,
  noun: string,
  changes: readonly Change[],
): Promise<void> {
  for (const some of chunks(changes))
    await tx.auditEntry.createMany({
      data: some.map(({ id, version, from, to }) => ({
        at: shop.now,
        personId: shop.by.personId,
        personName: `${shop.by.name} (import)`,
        act: "changed",
        noun,
        nounId: id,
        detail: { version: version + 1, changed: Object.keys(to), from, to },
      })),
    });
}
