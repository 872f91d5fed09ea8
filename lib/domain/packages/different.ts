import type { HoldPoint, Operation, PartNeed, Recipe } from "./recipe";

/** A step of a finished job as a package's own recipe knows it. */
export interface StepWas {
  readonly kind: "open" | "operation" | "close";
  /** Key of the operation or the access in the recipe. */
  readonly key: string;
  /** Minutes spent, rounded; 0 where nobody took time. */
  readonly spentMinutes: number;
  /** Parts taken from stock on it, and what had been reserved for it. */
  readonly parts: readonly {
    readonly code: string;
    readonly usedMilli: number;
    readonly wantedMilli: number;
    /** Why it was not used, or not all of it. */
    readonly why: string;
  }[];
  /** Readings outside their limits that an owner let pass, each with the reason. */
  readonly letPass: readonly { readonly name: string; readonly value: number; readonly why: string }[];
}

/** One thing that was different on a job, as it would change the package. */
export type Different = { readonly item: string; readonly evidence: string } & (
  | {
      readonly what: "minutes";
      readonly kind: StepWas["kind"];
      readonly key: string;
      readonly was: number;
      readonly now: number;
    }
  | {
      readonly what: "part";
      readonly key: string;
      readonly code: string;
      readonly was: number;
      readonly now: number;
    }
  | {
      readonly what: "limit";
      readonly key: string;
      readonly hold: string;
      readonly side: "low" | "high";
      readonly was: number;
      readonly now: number;
    }
);

/** Tells one difference from the others of a job. */
export function differentKey(one: Different): string {
  if (one.what === "minutes") return `minutes:${one.kind}:${one.key}`;
  return one.what === "part" ? `part:${one.key}:${one.code}` : `limit:${one.key}:${one.side}:${one.hold}`;
}

/** Less than this is no difference worth a revision: minutes, and share of the plan (judgement). */
const LEAST_MINUTES = 3;
const LEAST_SHARE = 0.15;

/**
 * What was different on a job from its package: minutes that were taken and are off by at least three and by 15 % (judgement),
 * parts that were used otherwise than planned, and limits past which an owner let a reading pass. A card is passed in the order
 * of its plan, so order is no difference. What no time was taken on, and what the recipe does not know, is left out.
 */
export function whatWasDifferent(recipe: Recipe, steps: readonly StepWas[]): Different[] {
  return steps.flatMap((step) => [
    ...minutesOf(recipe, step),
    ...(step.kind === "operation" ? [...partsOf(recipe, step), ...limitsOf(recipe, step)] : []),
  ]);
}

function planned(recipe: Recipe, { kind, key }: Pick<StepWas, "kind" | "key">) {
  if (kind === "operation") {
    const operation = recipe.operations.find((one) => one.key === key);
    return operation && { name: operation.name, minutes: operation.minutes };
  }
  const access = recipe.accesses.find((one) => one.key === key);
  return access && { name: access.name, minutes: kind === "open" ? access.openMinutes : access.closeMinutes };
}

const VERB = { open: "opening", operation: "work", close: "closing" } as const;

function minutesOf(recipe: Recipe, step: StepWas): Different[] {
  const plan = planned(recipe, step);
  const now = step.spentMinutes;
  if (!plan || now <= 0) return [];
  const off = Math.abs(now - plan.minutes);
  if (off < LEAST_MINUTES || off < LEAST_SHARE * plan.minutes) return [];
  const evidence = `${now} min were spent on ${VERB[step.kind]}, ${plan.minutes} planned`;
  return [
    { what: "minutes", kind: step.kind, key: step.key, item: plan.name, was: plan.minutes, now, evidence },
  ];
}

function partsOf(recipe: Recipe, { key, parts }: StepWas): Different[] {
  const operation = recipe.operations.find((one) => one.key === key);
  if (!operation) return [];
  return parts.flatMap(({ code, usedMilli, wantedMilli, why }): Different[] => {
    const need = needOf(recipe, operation, code);
    // A jet picked by computation is no part that the package names.
    if (usedMilli === wantedMilli || (!need && wantedMilli > 0)) return [];
    const was = need?.quantityMilli ?? 0;
    const now = Math.max(0, was + usedMilli - wantedMilli);
    if (was === now) return [];
    const evidence = `${usedMilli / 1000} of ${code} were used, ${wantedMilli / 1000} planned${why ? `: ${why}` : ""}`;
    return [{ what: "part", key, code, item: operation.name, was, now, evidence }];
  });
}

function needOf(recipe: Recipe, operation: Operation, code: string): PartNeed | undefined {
  const own = (need: PartNeed) => need.kind === "part" && need.code === code;
  const options = recipe.options.filter((option) => option.operations.includes(operation.key));
  return operation.parts.find(own) ?? options.flatMap((option) => option.parts).find(own);
}

function limitsOf(recipe: Recipe, { key, letPass }: StepWas): Different[] {
  const operation = recipe.operations.find((one) => one.key === key);
  if (!operation) return [];
  return letPass.flatMap(({ name, value, why }): Different[] => {
    const hold = operation.holdPoints.find((one) => one.kind === "reading" && one.name === name);
    const side = hold && sideOf(hold, value);
    if (!hold || !side) return [];
    const was = hold[side] ?? value;
    const evidence = `${value}${hold.unit ? ` ${hold.unit}` : ""} was let pass: ${why}`;
    return [
      { what: "limit", key, hold: name, side, item: `${operation.name}, ${name}`, was, now: value, evidence },
    ];
  });
}

function sideOf({ low, high }: HoldPoint, value: number): "low" | "high" | null {
  if (low !== undefined && value < low) return "low";
  return high !== undefined && value > high ? "high" : null;
}

/** The recipe with some differences kept. One whose item is gone changes nothing. */
export function keptDifferent(recipe: Recipe, kept: readonly Different[]): Recipe {
  let now = recipe;
  for (const one of kept) now = one.what === "part" ? withPart(now, one) : withFigure(now, one);
  return now;
}

function withFigure(recipe: Recipe, one: Exclude<Different, { readonly what: "part" }>): Recipe {
  const accesses = recipe.accesses.map((access) => {
    if (one.what !== "minutes" || one.kind === "operation" || access.key !== one.key) return access;
    return { ...access, [one.kind === "open" ? "openMinutes" : "closeMinutes"]: one.now };
  });
  const operations = recipe.operations.map((operation) => {
    if (operation.key !== one.key || (one.what === "minutes" && one.kind !== "operation")) return operation;
    if (one.what === "minutes") return { ...operation, minutes: one.now };
    const holdPoints = operation.holdPoints.map((hold) =>
      hold.name === one.hold ? { ...hold, [one.side]: one.now } : hold,
    );
    return { ...operation, holdPoints };
  });
  return { ...recipe, accesses, operations };
}

function withPart(recipe: Recipe, { key, code, now }: Different & { readonly what: "part" }): Recipe {
  const own = (need: PartNeed) => need.kind === "part" && need.code === code;
  // The first alone, as needOf counts it: out of a kit and by itself a part may be wanted twice.
  const changed = (parts: readonly PartNeed[]) => {
    const first = parts.find(own);
    return parts.flatMap((need) =>
      need === first ? (now > 0 ? [{ ...need, quantityMilli: now }] : []) : [need],
    );
  };
  const operation = recipe.operations.find((one) => one.key === key);
  if (!operation) return recipe;
  const inOption = recipe.options.find((one) => one.operations.includes(key) && one.parts.some(own));
  if (!operation.parts.some(own) && inOption)
    return {
      ...recipe,
      options: recipe.options.map((one) => (one === inOption ? { ...one, parts: changed(one.parts) } : one)),
    };
  const parts = operation.parts.some(own)
    ? changed(operation.parts)
    : [...operation.parts, { kind: "part" as const, code, quantityMilli: now }];
  return {
    ...recipe,
    operations: recipe.operations.map((one) => (one === operation ? { ...one, parts } : one)),
  };
}
