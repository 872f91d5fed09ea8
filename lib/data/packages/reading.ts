import { presetChoice } from "@/lib/domain/packages/choose";
import { needs } from "@/lib/domain/packages/needs";
import type { Recipe } from "@/lib/domain/packages/recipe";
import type { PlannedStep } from "@/lib/domain/plan/plan";
import { planWork } from "@/lib/domain/plan/planWork";

/** A recipe as others will read it with what is ticked from the start: its card, and what its customer is told before a yes. */
export interface PackageReading {
  readonly presets: readonly string[];
  readonly steps: readonly PlannedStep[];
  readonly minutes: number;
  readonly cautions: readonly string[];
  readonly roadUse: boolean;
}

/** What a recipe that passes its checks comes to, on a model of which nothing is known. */
export function readingOf(recipe: Recipe): PackageReading {
  const presets = presetChoice(recipe, {});
  const { operations, cautions, roadUse } = needs(recipe, presets);
  const { steps, minutes } = planWork(operations, recipe.accesses);
  return { presets, steps, minutes, cautions, roadUse };
}
