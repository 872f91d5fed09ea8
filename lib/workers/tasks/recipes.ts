export { checkRecipe } from "@/lib/domain/packages/check";
