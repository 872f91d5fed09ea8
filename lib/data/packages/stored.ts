import type { Recipe } from "@/lib/domain/packages/recipe";
import { readRecipe } from "@/lib/schemas/recipeVersions";

/** A recipe out of the database, of whatever version it was kept in. It went in through a schema, so a failure here is a damaged record. */
export function storedRecipe(json: unknown): Recipe {
  const read = readRecipe(json);
  if (!read.success) throw read.error;
  return read.data;
}
