import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { ReadRow, RowNote, RowProblem } from "@/lib/domain/imports/types";
import type { ModelCore } from "../bikes/modelCards";

/** What reading needs: a transaction, or the shop's reader for a look without writing. */
export type Reader = Pick<
  ShopTx,
  "customer" | "bike" | "part" | "modelCard" | "move" | "knownKey" | "importEntry"
>;

/** What bringing rows in would do, decided against what the shop has now. */
export interface Decision {
  readonly added: number;
  readonly changed: number;
  readonly unchanged: number;
  readonly problems: readonly RowProblem[];
  readonly notes: readonly RowNote[];
  /** Models without a card that the file does not know enough of: asked about once each. */
  readonly missing?: readonly MissingCard[];
  /** Does it; called only when there are no problems. Answers what each record needs to be taken back. */
  store(tx: ShopTx, shop: ShopHandle): Promise<Entry[]>;
}

/** A model that has no card, with how many rows want it and what the file says of it. */
export interface MissingCard extends CardKnown {
  readonly make: string;
  readonly model: string;
  readonly rows: number;
}

interface CardKnown {
  readonly displacementCc?: number | undefined;
  readonly cylinders?: number | undefined;
  readonly carburettors?: number | undefined;
  readonly carburettorType?: string | undefined;
}

/** One record that an import added or changed, or a key by which it knows one from now on. */
export interface Entry {
  readonly noun: "customer" | "bike" | "part" | "modelCard";
  readonly nounId: number;
  readonly act: "added" | "changed" | "known";
  readonly version: number;
  readonly was?: Changes;
  readonly openedMilli?: number;
}

export type Decide<T> = (
  reader: Reader,
  rows: readonly ReadRow<T>[],
  column: (field: string) => string,
  asked: Asked,
) => Promise<Decision>;

export interface Asked {
  /** Cards that the person described when asked about missing ones. */
  readonly cards: readonly ModelCore[];
  /** The rows are known by what they say, so that another spelling of it changes nothing. */
  readonly byWords: boolean;
}

type Plain = string | number | boolean | null;
export type Changes = Record<string, Plain>;

/** The filled values of a row that differ from what is stored: a blank cell leaves what is there. */
export function differing(
  stored: Readonly<Record<string, unknown>>,
  values: Readonly<Record<string, unknown>>,
  otherwise: (a: unknown, b: unknown) => boolean = (a, b) => a !== b,
): Changes {
  return Object.fromEntries(
    Object.entries(values).filter(
      ([key, value]) => value !== undefined && key in stored && otherwise(stored[key], value),
    ),
  ) as Changes;
}

/** Filled values only. */
export function filledOf<T extends object>(values: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
