import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { checkRecipe, type Problem } from "@/lib/domain/packages/check";
import { presetChoice } from "@/lib/domain/packages/choose";
import { needs } from "@/lib/domain/packages/needs";
import type { Recipe, Rule } from "@/lib/domain/packages/recipe";
import { planWork } from "@/lib/domain/plan/planWork";
import { Refusal } from "@/lib/domain/refusal";
import { MOST_RECIPE } from "@/lib/schemas/packages";
import { storedRecipe } from "./stored";

/** Goes up when the checks or the planner come to other answers; what was kept before is then worked out anew. */
export const CHECKS = 2;

/** What the checks say of a revision, and what its preset options take. */
export interface Checked {
  readonly problems: readonly Problem[];
  /** Plan minutes of the preset options, where a plan can be made. */
  readonly presetMinutes: number | null;
  /** How far above the least they can be: 0 where the plan is proven least. */
  readonly presetGap: number | null;
}

/** As it is kept: rules by their place in the recipe. */
interface Kept extends Omit<Checked, "problems"> {
  readonly problems: readonly (Omit<Problem, "rules"> & { readonly rules?: readonly number[] })[];
}

function workOut(recipe: Recipe): Kept {
  const problems = checkRecipe(recipe).map(({ rules, ...problem }) => ({
    ...problem,
    ...(rules ? { rules: rules.map((rule) => recipe.rules.indexOf(rule)) } : {}),
  }));
  if (problems.length > 0) return { problems, presetMinutes: null, presetGap: null };
  const plan = planWork(needs(recipe, presetChoice(recipe, {})).operations, recipe.accesses);
  return {
    problems,
    presetMinutes: plan.minutes,
    presetGap: plan.gapMinutes,
  };
}

/** A recipe as a revision stores it, with what the checks say of it: they run when it is written, never when it is looked at. */
export function revisionOf(recipe: Recipe) {
  const { length } = JSON.stringify(recipe);
  if (length > MOST_RECIPE)
    throw new Refusal(
      `The package has grown to ${length} characters; at most ${MOST_RECIPE} can be kept.`,
      "Shorten instructions and cautions, or make two packages of it.",
    );
  return {
    recipe: recipe as unknown as Prisma.InputJsonObject,
    checked: workOut(recipe) as unknown as Prisma.InputJsonObject,
    checkedBy: CHECKS,
    picked: pickedOf(recipe),
  };
}

/** What a recipe picked from the library, each text once. */
function pickedOf(recipe: Recipe): Prisma.InputJsonArray {
  const picked = new Map(
    (recipe.picks ?? []).map(({ entry, print }) => [`${entry} ${print}`, { entry, print }] as const),
  );
  return [...picked.values()];
}

/** What was kept of a revision's checks; null where they have not run since the checks changed. */
export function checkedOf(row: { checked: unknown; checkedBy: number }, recipe: Recipe): Checked | null {
  if (row.checkedBy !== CHECKS || row.checked === null) return null;
  const { problems, ...rest } = row.checked as Kept;
  const ruleAt = (at: number): Rule[] => recipe.rules.slice(at, at + 1);
  return {
    ...rest,
    problems: problems.map(({ rules, ...problem }) => ({
      ...problem,
      ...(rules ? { rules: rules.flatMap(ruleAt) } : {}),
    })),
  };
}

/** Most revisions looked at in one round. */
const MOST = 20;

/** True where a revision's checks have not run since the checks changed. */
export async function hasUnchecked(shop: ShopHandle): Promise<boolean> {
  const where = { checkedBy: { not: CHECKS } };
  const row = await shop.read.packageRevision.findFirst({
    where,
    select: { id: true },
    orderBy: { id: "asc" },
  });
  return row !== null;
}

/** Checks revisions that were kept before the checks were, newest first. Answers how many. */
export async function checkRevisions(shop: ShopHandle): Promise<number> {
  const rows = await shop.read.packageRevision.findMany({
    where: { checkedBy: { not: CHECKS } },
    select: { id: true, version: true, recipe: true },
    orderBy: { id: "desc" },
    take: MOST,
  });
  for (const { id, version, recipe } of rows) {
    const { checked, checkedBy } = revisionOf(storedRecipe(recipe));
    await shop.write((tx) =>
      tx.packageRevision.updateMany({ where: { id, version }, data: { checked, checkedBy } }),
    );
  }
  return rows.length;
}
