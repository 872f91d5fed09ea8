import type { PartNeed } from "../packages/recipe";
import { takenBy } from "../packages/taking";
import type { Arrival } from "../stock/arrival";
import type { TaxMark } from "../tax/rates";
import { workOf } from "./composeWorks";
import type { QuoteFacts } from "./facts";

export type JetSetting = "mainJet" | "pilotJet";

/** What a quote takes out of stock. */
export interface QuotePart {
  /** Null where no part of the shop's stock is meant yet. */
  readonly partId: number | null;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantityMilli: number;
  /** The operation that uses it; null where the option names no work. */
  readonly operation: string | null;
  readonly option: string;
  /** Key of the line that wants it, where it was written by hand; absent where a work wants it. */
  readonly byHand?: string;
  readonly setting: JetSetting | null;
  readonly size: number | null;
  /** A jet that is settled when it is fitted; absent for every other part. */
  readonly unsettled?: UnsettledJet;
  readonly freeMilli: number;
  readonly shortMilli: number;
  /** When what is short can be there; null where nothing is. */
  readonly arrival: Arrival | null;
  /** In words: "3 in the drawer", "not in stock, on order, due 4 Dec 2026". */
  readonly note: string;
  readonly costE4: number | null;
  readonly priceE4: number | null;
  readonly taxMark?: TaxMark;
  /** Code of the part that was asked for, which is made no more and whose place this one takes. */
  readonly inPlaceOf?: string;
  /** Code of the kit of its option that it came out of, where that has a set price. */
  readonly kit?: string;
}

/** A jet that nobody can take from stock yet: its size is not known, or the drawer has none of that size. */
export interface UnsettledJet {
  readonly family: string;
  /** Positions of the carburettors that it is for; they share the quantity equally. */
  readonly carburettors: readonly number[];
}

/** One part that some chosen option needs. */
export interface Wanted {
  readonly need: PartNeed;
  readonly option: string;
  readonly operation: string | null;
}

/**
 * The parts of some chosen options: each under the operation that takes it (null: whichever step the person takes it at), an
 * operation's own parts once. A jet that several works settle is taken by the first of them.
 */
export function wantedOf(facts: QuoteFacts, chosen: readonly string[]): Wanted[] {
  const options = facts.recipe.options.filter((o) => chosen.includes(o.key));
  const seen = new Set<string>();
  const jets = new Map<string, string>();
  const isOthers = (need: PartNeed, option: string) => {
    if (need.kind !== "jet" || !facts.works) return false;
    const work = workOf(facts.works, option);
    const first = jets.get(need.setting) ?? work;
    jets.set(need.setting, first);
    return first !== work;
  };
  return options.flatMap((option) => [
    ...option.parts
      .filter((need) => !isOthers(need, option.key))
      .map((need) => ({
        need,
        option: option.key,
        operation: takenBy(facts.recipe, option, need),
      })),
    ...option.operations.flatMap((key) => {
      if (seen.has(key)) return [];
      seen.add(key);
      const operation = facts.recipe.operations.find((o) => o.key === key);
      return (operation?.parts ?? []).map((need) => ({ need, option: option.key, operation: key }));
    }),
  ]);
}

/** The kit that a wanted part came out of. */
export const kitOf = ({ need }: Wanted): { readonly kit?: string } =>
  need.kind === "part" && need.kit !== undefined ? { kit: need.kit } : {};

/** A part that is wanted and is not among the shop's. */
export function unknownPart(wanted: Wanted, code: string, quantityMilli: number): QuotePart {
  return {
    partId: null,
    code,
    name: code,
    unit: "each",
    quantityMilli,
    operation: wanted.operation,
    option: wanted.option,
    setting: null,
    size: null,
    freeMilli: 0,
    shortMilli: quantityMilli,
    arrival: { by: "unknown", on: null, late: null },
    note: "not among the shop's parts yet",
    costE4: null,
    priceE4: null,
    ...kitOf(wanted),
  };
}
