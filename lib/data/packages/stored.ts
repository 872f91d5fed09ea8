import type { Recipe } from "@/lib/domain/packages/recipe";
import { RecipeSchema } from "@/lib/schemas/recipe";

/** A recipe out of the database. It went in through the same schema, so a failure here is a damaged record. */
export function storedRecipe(json: unknown): Recipe {
  return RecipeSchema.parse(json);
}
