import type { Recipe } from "../recipe";
import { CLEAN_REBUILD } from "./cleanRebuild";
import { SINGLE_RESET } from "./singleReset";
import { TWIN_BALANCE } from "./twinBalance";

export interface Starter {
  readonly key: string;
  /** The package's code to begin with. */
  readonly code: string;
  readonly name: string;
  readonly summary: string;
  readonly recipe: Recipe;
}

/** Packages that a shop may take over and edit. Their minutes and limits are starting figures: common practice, no source. */
export const STARTERS: readonly Starter[] = [
  {
    key: "single-reset",
    code: "JETS-1",
    name: "Jets and screw reset, single",
    summary: "Main jet, pilot jet and mixture screw of one carburettor for altitude and season.",
    recipe: SINGLE_RESET,
  },
  {
    key: "clean-rebuild",
    code: "REBUILD-1",
    name: "Carburettor cleaning and rebuild",
    summary: "One carburettor taken apart, cleaned, measured and sealed anew.",
    recipe: CLEAN_REBUILD,
  },
  {
    key: "twin-balance",
    code: "BALANCE-2",
    name: "Twin balance",
    summary: "Two carburettors balanced by vacuum, with their floats set alike.",
    recipe: TWIN_BALANCE,
  },
];

/** A starter's recipe priced at one of the shop's own labour grades. */
export function recipeAt(starter: Starter, grade: string): Recipe {
  const { recipe } = starter;
  return { ...recipe, operations: recipe.operations.map((one) => ({ ...one, grade })) };
}
