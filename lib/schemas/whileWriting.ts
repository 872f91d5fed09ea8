import type { z } from "zod";
import type { ItemPart } from "@/lib/domain/packages/recipe";
import { checkRecipe, type Problem } from "../domain/packages/check";
import type { Recipe } from "../domain/packages/recipe";
import { freshKey, withItem } from "../domain/packages/withItem";
import { AccessFormSchema, GroupFormSchema, OperationFormSchema, OptionFormSchema } from "./recipeForms";
import { RuleFormSchema } from "./ruleForm";

/** The draft a form was drawn from, and which of its items the form is about (`at` below nothing: a new one). */
export interface Writing {
  readonly recipe: Recipe;
  readonly part: ItemPart;
  readonly at: number;
}

const SCHEMAS: Readonly<Record<ItemPart, z.ZodType>> = {
  groups: GroupFormSchema,
  options: OptionFormSchema,
  operations: OperationFormSchema,
  accesses: AccessFormSchema,
  rules: RuleFormSchema,
};

/** What stands in for what is not typed yet, so that the rest can be checked already. */
const MEANWHILE: Readonly<Record<string, string>> = {
  name: "This one",
  why: "no reason given yet",
  minutes: "1",
  openMinutes: "0",
  closeMinutes: "0",
  grade: "-",
};

/**
 * What the checks will say once the item is saved as it is typed now: faults of its fields, then faults of the recipe that it
 * makes or that name it. Fields still empty are no fault yet. `form` is what `formObject` makes of the form.
 */
export function saidWhileWriting(
  { recipe, part, at }: Writing,
  form: Readonly<Record<string, unknown>>,
): string[] {
  const blank = Object.keys(MEANWHILE).filter((field) => String(form[field] ?? "").trim() === "");
  const meanwhile = Object.fromEntries(blank.map((field) => [field, MEANWHILE[field]]));
  const parsed = SCHEMAS[part].safeParse({ ...form, ...meanwhile, packageId: "1", as: "" });
  if (!parsed.success) return parsed.error.issues.filter((issue) => typed(form, issue.path)).map(inPlace);
  const { item } = parsed.data as { item: object };
  const there = (recipe[part] as readonly object[])[at];
  const keyed = part === "rules" ? item : { key: keyFor(recipe, part, there, item), ...item };
  const before = new Set(checkRecipe(recipe).map((problem) => problem.message));
  return checkRecipe(withItem(recipe, part, at, keyed))
    .filter((problem) => !before.has(problem.message) || isOf(problem, part, keyed))
    .map((problem) => problem.message);
}

function keyFor(recipe: Recipe, part: ItemPart, there: object | undefined, item: object): string {
  if (there && "key" in there) return String(there.key);
  const taken = (recipe[part] as readonly object[]).flatMap((one) => ("key" in one ? [String(one.key)] : []));
  return freshKey(taken, "name" in item ? String(item.name) : "");
}

function isOf(problem: Problem, part: ItemPart, item: object): boolean {
  if (part === "rules")
    return (problem.rules ?? []).some((rule) => JSON.stringify(rule) === JSON.stringify(item));
  return problem.part === part && "key" in item && problem.names.includes(String(item.key));
}

/** Whether something stands in the field that an issue is about. */
function typed(form: Readonly<Record<string, unknown>>, path: readonly PropertyKey[]): boolean {
  const value = path.reduce<unknown>(
    (at, step) => (at as Record<PropertyKey, unknown> | undefined)?.[step],
    form,
  );
  return value !== undefined && value !== "" && String(value).trim() !== "";
}

const ROWS: Readonly<Record<string, string>> = {
  parts: "Part",
  changes: "Setting change",
  holdPoints: "Hold point",
};

function inPlace({ path, message }: { path: readonly PropertyKey[]; message: string }): string {
  const row = ROWS[String(path[0])];
  return row && path.length > 1 ? `${row} ${Number(path[1]) + 1}: ${message}` : message;
}
