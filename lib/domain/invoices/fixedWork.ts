import type { Operation, Recipe } from "../packages/recipe";
import { takenBy } from "../packages/taking";
import { folded } from "../plan/oneBike";

/** An accepted quote, as far as what its fixed prices pay for. */
export interface AgreedOptions {
  readonly recipe: Recipe | null;
  /** Keys of the options agreed. */
  readonly options: readonly string[];
}

/** A step of the card, with the operation it is and the quote it is from; null for an opening, a closing, a ride. */
export interface StepOfWork {
  readonly id: number;
  readonly name: string;
  readonly kind: string;
  readonly state: string;
  readonly work: { readonly from: number; readonly operation: Operation } | null;
}

export interface FixedWork {
  /** Ids of the steps that fixed prices pay for. */
  readonly steps: ReadonlySet<number>;
  /** Fixed options, by quote, none of whose own steps was done: all were skipped. */
  readonly leftOut: ReadonlySet<string>;
  /** Parts that fixed prices pay for and that a step of other work takes: thousandths by the part's code. */
  readonly parts: ReadonlyMap<string, number>;
}

/** A fixed option of the quote at a place, as `leftOut` names it. */
export const fixedKey = (quote: number, option: string): string => `${quote} ${option}`;

/**
 * What the fixed prices of accepted quotes pay for: the operations that only fixed options have, the openings that only these
 * need (by name, as packages meet on one bike), and parts of fixed options that another step takes. All else is charged by time
 * and by the part.
 */
export function fixedWork(quotes: readonly AgreedOptions[], steps: readonly StepOfWork[]): FixedWork {
  const sides = quotes.map(sideOf);
  const isFixed = ({ work }: StepOfWork) =>
    work !== null && (sides[work.from]?.fixedOnly.has(work.operation.key) ?? false);
  const opened = (fixed: boolean) =>
    new Set(
      steps.flatMap((step) =>
        step.work && isFixed(step) === fixed
          ? accessNames(quotes[step.work.from]?.recipe ?? null, step.work.operation.accesses)
          : [],
      ),
    );
  const [forFixed, forOthers] = [opened(true), opened(false)];
  const opensForFixed = ({ work, kind, name }: StepOfWork) =>
    work === null && kind !== "ride" && forFixed.has(folded(name)) && !forOthers.has(folded(name));
  const leftOut = sides.flatMap(({ fixed, fixedOnly }, at) =>
    fixed.flatMap((option) => {
      const own = steps.filter(
        ({ work }) =>
          work?.from === at &&
          fixedOnly.has(work.operation.key) &&
          option.operations.includes(work.operation.key),
      );
      return own.length > 0 && own.every((step) => step.state === "skipped")
        ? [fixedKey(at, option.key)]
        : [];
    }),
  );
  const parts = new Map<string, number>();
  for (const { recipe, fixed, fixedOnly } of sides)
    for (const option of fixed)
      for (const need of option.parts) {
        const operation = recipe ? takenBy(recipe, option, need) : null;
        if (need.kind !== "part" || (operation !== null && fixedOnly.has(operation))) continue;
        parts.set(need.code, (parts.get(need.code) ?? 0) + need.quantityMilli);
      }
  return {
    steps: new Set(steps.filter((step) => isFixed(step) || opensForFixed(step)).map((step) => step.id)),
    leftOut: new Set(leftOut),
    parts,
  };
}

function sideOf({ recipe, options }: AgreedOptions) {
  const agreed = recipe?.options.filter((option) => options.includes(option.key)) ?? [];
  const fixed = agreed.filter((option) => option.fixedPriceMinor !== undefined);
  const charged = new Set(
    agreed.filter((option) => option.fixedPriceMinor === undefined).flatMap((option) => option.operations),
  );
  const fixedOnly = new Set(fixed.flatMap((option) => option.operations).filter((key) => !charged.has(key)));
  return { recipe, fixed, fixedOnly };
}

/** Names of some accesses and of all that these need open. */
function accessNames(recipe: Recipe | null, keys: readonly string[]): string[] {
  const found = new Set<string>();
  const visit = (key: string) => {
    const access = recipe?.accesses.find((one) => one.key === key);
    if (!access || found.has(folded(access.name))) return;
    found.add(folded(access.name));
    for (const needed of access.needs) visit(needed);
  };
  for (const key of keys) visit(key);
  return [...found];
}
