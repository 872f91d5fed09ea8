import type { SettingChange } from "../tuning/settingChange";
import type { HoldPoint, Operation, Option, OptionKit, PartNeed, Recipe } from "./recipe";

/** A part by its code, in thousandths of its unit. */
export interface PartWanted {
  readonly code: string;
  readonly quantityMilli: number;
}

/** One piece of a written work: whole minutes of one grade. A blank name is the work's own. */
export interface WrittenStep {
  readonly name: string;
  readonly minutes: number;
  readonly grade: string;
}

/** Work that somebody else does for the shop. Amounts in minor units. */
export interface OutsideWork {
  readonly name: string;
  readonly priceMinor: number;
  readonly costMinor: number;
  /** Zero-rated, exempt or outside the scope; absent: as work from outside is taxed. */
  readonly taxMark?: "Z" | "E" | "O";
}

/** What has to be open for a written work; where a package knows an access of that name, the package's minutes count. */
export interface WrittenAccess {
  readonly name: string;
  readonly openMinutes: number;
  readonly closeMinutes: number;
}

/** A work written for one quote. */
export interface WrittenWork {
  readonly name: string;
  /** What the customer reads. */
  readonly plain: string;
  readonly steps: readonly WrittenStep[];
  readonly parts: readonly PartNeed[];
  readonly outside: readonly OutsideWork[];
  readonly accesses: readonly WrittenAccess[];
  readonly holdPoints: readonly HoldPoint[];
  readonly changes: readonly SettingChange[];
  readonly cautions: readonly string[];
  /** Replaces its labour and parts, in minor units. */
  readonly fixedPriceMinor?: number;
  /** Kits with a set price among its parts; absent: none. */
  readonly kits?: readonly OptionKit[];
}

/**
 * One entry of a quote's list. `key` stands before the keys of its options and operations among those of the other works: empty
 * for the first of a quote, otherwise without a colon and unlike the others.
 */
export type Work = { readonly key: string } & (
  | { readonly kind: "package"; readonly name: string; readonly recipe: Recipe }
  | ({ readonly kind: "written" } & WrittenWork)
  | { readonly kind: "parts"; readonly name: string; readonly parts: readonly PartWanted[] }
  | { readonly kind: "text"; readonly name: string; readonly text: string }
);

/** Work that takes no time of the shop's still stands on the card: its parts are taken there. */
const NO_TIME: WrittenStep = { name: "", minutes: 0, grade: "" };

/** The keys of what a written work, or parts alone, become in a recipe of their own. */
const ALL = "all";

const recipe = (parts: Partial<Recipe>): Recipe => ({
  format: "throttlewright-recipe",
  version: 2,
  groups: [],
  options: [],
  operations: [],
  accesses: [],
  rules: [],
  ...parts,
});

/**
 * A work as a recipe. A written work and parts alone are one option in a group of exactly one, so that it always follows; text is an
 * empty recipe. Hold points, cautions and setting changes belong to the last step of a written work.
 */
export function recipeOf(work: Work): Recipe {
  if (work.kind === "package") return work.recipe;
  if (work.kind === "text") return recipe({});
  const written = work.kind === "written" ? work : partsAsWritten(work.name, work.parts);
  const accesses = written.accesses.map((access, at) => ({
    ...access,
    key: `access-${at + 1}`,
    needs: [],
    excludes: [],
    closingChecks: [],
    cautions: [],
    tools: [],
  }));
  const steps = written.steps.length > 0 ? written.steps : [NO_TIME];
  const operations = steps.map((step, at): Operation => {
    const last = at === steps.length - 1;
    return {
      key: `step-${at + 1}`,
      name: step.name || written.name,
      instruction: "",
      minutes: step.minutes,
      grade: step.grade,
      accesses: accesses.map(({ key }) => key),
      after: at === 0 ? [] : [`step-${at}`],
      parts: [],
      holdPoints: last ? written.holdPoints : [],
      ...(last && written.changes.length > 0 ? { makes: written.changes.map((c) => c.setting) } : {}),
      cautions: last ? written.cautions : [],
      tools: [],
      inspects: [],
    };
  });
  const takes = operations.at(-1)?.key;
  const option: Option = {
    key: ALL,
    group: ALL,
    name: written.name,
    plain: written.plain,
    operations: operations.map(({ key }) => key),
    parts: written.parts.map((need) => (takes === undefined ? need : { ...need, operation: takes })),
    changes: written.changes,
    cautions: written.cautions,
    preset: true,
    roadUse: false,
    ...(written.fixedPriceMinor === undefined ? {} : { fixedPriceMinor: written.fixedPriceMinor }),
    ...(written.kits ? { kits: written.kits } : {}),
  };
  return recipe({
    groups: [{ key: ALL, name: written.name, choose: "exactly one" }],
    options: [option],
    operations,
    accesses,
  });
}

function partsAsWritten(name: string, parts: readonly PartWanted[]): WrittenWork {
  return {
    name,
    plain: "",
    steps: [],
    parts: parts.map((part) => ({ kind: "part", ...part })),
    outside: [],
    accesses: [],
    holdPoints: [],
    changes: [],
    cautions: [],
  };
}
