import type { ShopHandle } from "@/lib/db/shop";
import { checkRecipe, type Problem } from "@/lib/domain/packages/check";
import { presetChoice } from "@/lib/domain/packages/choose";
import { needs } from "@/lib/domain/packages/needs";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { planWork } from "@/lib/domain/plan/planWork";
import { storedRecipe } from "./stored";

export interface RevisionView {
  readonly id: number;
  readonly number: number;
  readonly state: "draft" | "published";
  readonly version: number;
  readonly createdAt: Date;
  readonly publishedAt: Date | null;
  readonly recipe: Recipe;
  /** What keeps a draft from being published. */
  readonly problems: readonly Problem[];
  /** Plan minutes of the preset options, where a plan can be made. */
  readonly presetMinutes: number | null;
  readonly presetSaved: number | null;
}

export interface PackageView {
  readonly id: number;
  readonly code: string;
  readonly name: string;
  readonly summary: string;
  readonly active: boolean;
  readonly version: number;
  readonly revisions: readonly { readonly number: number; readonly state: "draft" | "published" }[];
  readonly shown: RevisionView | null;
}

/** A package with one revision opened: the asked-for number, else the newest. Null where it does not exist. */
export async function getPackage(shop: ShopHandle, id: number, number?: number): Promise<PackageView | null> {
  const row = await shop.read.package.findUnique({
    where: { id },
    select: {
      id: true,
      code: true,
      name: true,
      summary: true,
      active: true,
      version: true,
      revisions: { select: { number: true, state: true }, orderBy: { number: "desc" } },
    },
  });
  if (!row) return null;
  const wanted = number ?? row.revisions[0]?.number;
  if (wanted === undefined) return { ...row, shown: null };
  const revision = await shop.read.packageRevision.findUnique({
    where: { packageId_number: { packageId: id, number: wanted } },
    select: {
      id: true,
      number: true,
      state: true,
      version: true,
      createdAt: true,
      publishedAt: true,
      recipe: true,
    },
  });
  return revision ? { ...row, shown: viewOf(revision, storedRecipe(revision.recipe)) } : null;
}

function viewOf(
  row: Omit<RevisionView, "recipe" | "problems" | "presetMinutes" | "presetSaved">,
  recipe: Recipe,
): RevisionView {
  const problems = checkRecipe(recipe);
  const shown = { ...row, recipe, problems };
  if (problems.length > 0) return { ...shown, presetMinutes: null, presetSaved: null };
  const plan = planWork(needs(recipe, presetChoice(recipe, {})).operations, recipe.accesses);
  return { ...shown, presetMinutes: plan.minutes, presetSaved: plan.minutesSaved };
}
