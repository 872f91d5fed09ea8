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
