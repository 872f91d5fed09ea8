import type { Problem } from "@/lib/domain/packages/check";
import type { RecipePart } from "@/lib/schemas/recipeItem";

/** Whether a problem is of this item: named first in its own list, or among those that clash. */
export function concerns(problem: Problem, part: RecipePart, item: object): boolean {
  if (part === "rules") return (problem.rules ?? []).some((rule) => rule === item);
  const key = "key" in item ? String(item.key) : "";
  if (problem.part === part) return problem.names.includes(key);
  return problem.kind === "clash" && (part === "options" || part === "groups") && problem.names.includes(key);
}

/** The list and the item a problem is put right in: its first name's, or the first of its rules. */
export function itemOf(problem: Problem): { part: RecipePart; key: string; rule?: object } | null {
  const [rule] = problem.rules ?? [];
  if (rule && (problem.part === "rules" || problem.kind === "clash")) return { part: "rules", key: "", rule };
  const [key] = problem.names;
  return problem.part && problem.part !== "rules" && key ? { part: problem.part, key } : null;
}
