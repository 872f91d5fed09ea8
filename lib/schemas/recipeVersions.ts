import type { WearItem } from "../domain/tuning/wear";
import { RecipeSchema } from "./recipe";

/** Versions of a recipe that can be read; the last is the one that is written. */
export const RECIPE_VERSIONS = [1, 2] as const;

type Parsed = ReturnType<typeof RecipeSchema.safeParse>;

/** A recipe of any version, brought up to the present one and checked. */
export function readRecipe(json: unknown): Parsed {
  return RecipeSchema.safeParse(upgraded(json));
}

/** A recipe of an older version as the present one would have it; anything else as it is, for the schema to judge. */
export function upgraded(json: unknown): unknown {
  const { version, operations } = (json ?? {}) as { version?: unknown; operations?: unknown };
  if (version !== 1 || !Array.isArray(operations)) return json;
  return { ...(json as object), version: 2, operations: operations.map(inspecting) };
}

/** Version 1 had no mark for what an operation inspects: its English name said it. */
function inspecting(operation: unknown): unknown {
  if (operation === null || typeof operation !== "object") return operation;
  const { name } = operation as { name?: unknown };
  const inspects: WearItem[] = typeof name === "string" && /guide/i.test(name) ? ["slideGuides"] : [];
  return { ...operation, inspects };
}
