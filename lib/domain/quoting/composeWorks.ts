import { shortestCycle } from "../packages/cycle";
import type { Operation, Option, Recipe, Rule } from "../packages/recipe";
import { recipeOf, type Work } from "../packages/work";
import { folded, type OneBike, oneBike } from "../plan/oneBike";
import type { HandLine } from "./terms";

/** A work as headings, lines and papers name it. */
export interface WorkHead {
  readonly key: string;
  readonly kind: Work["kind"];
  readonly name: string;
  /** The words of a text; empty for other works. */
  readonly text: string;
}

/** A quote's works as one recipe, which everything after it knows only. */
export interface Composed {
  readonly recipe: Recipe;
  /** The works in their order; empty where the quote is one package and nothing else, as quotes used to be. */
  readonly works: readonly WorkHead[];
  /** Work of written works that is bought outside. */
  readonly outside: readonly HandLine[];
}

/** A key of a work's own recipe as it stands among those of all works. */
export const keyIn = (work: string, key: string): string => (work === "" ? key : `${work}:${key}`);

/** The work that a composed key belongs to, by the work's key. */
export function workOf(works: readonly Pick<WorkHead, "key">[], key: string): string {
  return works.find((work) => work.key !== "" && key.startsWith(`${work.key}:`))?.key ?? "";
}

/**
 * The works of a quote as one recipe: the keys of each work's groups, options, operations and rules stand behind its own key, and
 * accesses of the same name are the same thing on the bike, so that the planner opens them once for all works. An operation comes
 * after what another work, too, says must be done before one of its name, unless that ends in a circle. One package alone under the
 * empty key is its own recipe, unchanged. Minutes are whole, quantities in thousandths.
 */
export function composeWorks(works: readonly Work[]): Composed {
  const [first, ...others] = works;
  if (first?.kind === "package" && first.key === "" && others.length === 0)
    return { recipe: first.recipe, works: [], outside: [] };
  // What a package says of an access counts before what was written by hand.
  const known = works.toSorted((a, b) => Number(b.kind === "package") - Number(a.kind === "package"));
  const recipes = new Map(works.map((work) => [work, recipeOf(work)]));
  const bike = oneBike(known.map((work) => recipes.get(work) ?? recipeOf(work)));
  const own = works.map((work) => ({
    recipe: recipes.get(work) ?? recipeOf(work),
    within: (key: string) => keyIn(work.key, key),
    access: (key: string) => bike.keyOf(known.indexOf(work), key),
  }));
  return {
    recipe: {
      format: "throttlewright-recipe",
      version: 2,
      groups: own.flatMap(({ recipe, within }) =>
        recipe.groups.map((group) => ({ ...group, key: within(group.key) })),
      ),
      options: own.flatMap(({ recipe, within }) => recipe.options.map((one) => optionIn(one, within))),
      operations: ordered(
        own.flatMap(({ recipe, within, access }) =>
          recipe.operations.map((one) => ({
            ...one,
            key: within(one.key),
            accesses: [...new Set(one.accesses.map(access))],
            after: one.after.map(within),
          })),
        ),
        bike,
      ),
      accesses: bike.accesses,
      rules: own.flatMap(({ recipe, within }) => recipe.rules.map((rule) => ruleIn(rule, within))),
    },
    works: works.map((work) => ({
      key: work.key,
      kind: work.kind,
      name: work.name,
      text: work.kind === "text" ? work.text : "",
    })),
    outside: works.flatMap((work) =>
      work.kind !== "written"
        ? []
        : work.outside.map((line, at) => ({
            ...line,
            key: keyIn(work.key, `outside-${at + 1}`),
            kind: "outside" as const,
            work: work.key,
          })),
    ),
  };
}

type Within = (key: string) => string;

function optionIn(option: Option, within: Within): Option {
  return {
    ...option,
    key: within(option.key),
    group: within(option.group),
    operations: option.operations.map(within),
    parts: option.parts.map((need) =>
      need.operation === undefined ? need : { ...need, operation: within(need.operation) },
    ),
  };
}

function ruleIn(rule: Rule, within: Within): Rule {
  const option = within(rule.option);
  if (rule.kind === "needs") return { ...rule, option, anyOf: rule.anyOf.map(within) };
  if (rule.kind === "excludes") return { ...rule, option, other: within(rule.other) };
  if (rule.kind === "only when") return { ...rule, option };
  const { without, with: beside, ...rest } = rule;
  return {
    ...rest,
    option,
    ...(without === undefined ? {} : { without: within(without) }),
    ...(beside === undefined ? {} : { with: within(beside) }),
  };
}

/** Operations that also come after what other works say must be done before one of their name. */
function ordered(operations: readonly Operation[], bike: OneBike): Operation[] {
  const together = operations.map((operation): Operation => {
    const before = bike.before(operation.name);
    const others = operations.filter((other) => before.has(folded(other.name)) && other !== operation);
    return { ...operation, after: [...new Set([...operation.after, ...others.map(({ key }) => key)])] };
  });
  const next = new Map(together.map(({ key, after }) => [key, after]));
  const circle = shortestCycle([...next.keys()], (key) => next.get(key) ?? []);
  return circle ? [...operations] : together;
}
