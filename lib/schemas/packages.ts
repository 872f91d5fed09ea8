import { z } from "zod";
import type { Recipe } from "@/lib/domain/packages/recipe";
import type { LibraryEntry } from "../domain/library/entry";
import { type FileIssue, fileIssues, jsonOf } from "./fileIssues";
import { formId } from "./ids";
import { LibraryEntrySchema, MOST_ENTRIES } from "./library";
import { oneLine } from "./oneLine";
import { RecipeSchema } from "./recipe";
import { RECIPE_VERSIONS, readRecipe, upgraded } from "./recipeVersions";

export const id = formId();
export const version = formId("Open the page again.");

export const CreatePackageSchema = z.object({
  code: z
    .string()
    .trim()
    .min(1, "Give the package a short code.")
    .max(24, "Keep the code within 24 characters.")
    .regex(/^[A-Za-z0-9][A-Za-z0-9-]*$/, "Use letters, figures and hyphens, without spaces."),
  name: oneLine(120, "Keep the name within 120 characters.").min(1, "Give the package a name."),
  summary: z.string().trim().max(400, "Keep this within 400 characters.").default(""),
});

export const TakeStarterSchema = z.object({ starter: z.string().max(40, "Choose a starter package.") });

/** Most characters of a recipe or a package's file. */
export const MOST_RECIPE = 400_000;

interface Telling {
  addIssue(issue: { code: "custom"; path?: (string | number)[]; message: string }): void;
}

/** Most faults of one file that are said; with more than that it is another kind of file. */
const MOST_SAID = 300;

/** Tells every fault of a file: first how many, then each at its place. */
function tell(context: unknown, issues: readonly FileIssue[]): typeof z.NEVER {
  const told = context as Telling;
  const many = issues.length === 1 ? "One thing" : `${issues.length} things`;
  const only = issues.length > MOST_SAID ? `; the first ${MOST_SAID} are named` : "";
  told.addIssue({ code: "custom", message: `${many} in it cannot be read${only}. Nothing was saved.` });
  for (const { path, message } of issues.slice(0, MOST_SAID))
    told.addIssue({ code: "custom", path: [...path], message });
  return z.NEVER;
}

/** A recipe as pasted text: JSON first, then its shape, each fault with the place it stands at. */
const RecipeText = z
  .string()
  .trim()
  .min(1, "Paste the recipe here.")
  .max(MOST_RECIPE, "This is longer than any recipe can be.")
  .transform((text, context) => {
    const json = jsonOf(text);
    if ("failed" in json) {
      context.addIssue({ code: "custom", message: json.failed });
      return z.NEVER;
    }
    const value = recipeIn(json.value);
    const other = otherFormat(value, "throttlewright-recipe", "a recipe", RECIPE_VERSIONS);
    if (other) {
      context.addIssue({ code: "custom", message: other });
      return z.NEVER;
    }
    const recipe = readRecipe(value);
    return recipe.success ? recipe.data : tell(context, fileIssues(recipe.error.issues, value));
  });

/** A whole package's file stands for its recipe. */
function recipeIn(value: unknown): unknown {
  const { format, recipe } = (value ?? {}) as { format?: unknown; recipe?: unknown };
  return format === "throttlewright-package" ? recipe : value;
}

/** Why a file is not of this format and of a version that can be read; null where it is. */
function otherFormat(
  value: unknown,
  wanted: string,
  what: string,
  versions: readonly number[],
): string | null {
  const { format, version: given } = (value ?? {}) as { format?: unknown; version?: unknown };
  if (format !== wanted) return `This is not ${what}: it should begin with the format “${wanted}”.`;
  if (typeof given === "number" && versions.includes(given)) return null;
  const newest = versions.at(-1);
  return `This is ${what} of version ${String(given)}; version ${versions.join(" and ")} can be read. Save it again from the program that wrote it, as version ${newest}.`;
}

const code = z
  .string()
  .trim()
  .min(1, "Give the package a short code.")
  .max(24, "Keep the code within 24 characters.")
  .regex(/^[A-Za-z0-9][A-Za-z0-9-]*$/, "Use letters, figures and hyphens, without spaces.");
const packageName = oneLine(120, "Keep the name within 120 characters.").min(1, "Give the package a name.");

/** A package in a file: what export writes and import reads. */
export const PackageFileSchema = z.strictObject({
  format: z.literal("throttlewright-package"),
  version: z.literal(1),
  code,
  name: packageName,
  summary: z.string().max(400).default(""),
  /** The revision it was exported from; for people to read. */
  revision: z.int().min(1).optional(),
  recipe: RecipeSchema,
  /** The entries of the shop's library that the recipe picked. */
  library: z.array(LibraryEntrySchema).max(MOST_ENTRIES).exactOptional(),
});
/** What a file holds; the recipe stays as the domain has it. */
export type PackageFile = Omit<z.output<typeof PackageFileSchema>, "recipe" | "library"> & {
  readonly recipe: Recipe;
  readonly library?: readonly LibraryEntry[];
};

/** A package's file as text. Blank code or name: as the file says. */
export const ImportPackageSchema = z.object({
  code: z.union([z.literal(""), code]).default(""),
  name: oneLine(120, "Keep the name within 120 characters.").default(""),
  file: z
    .string()
    .trim()
    .min(1, "Choose a file, or paste its text here.")
    .max(MOST_RECIPE, "This is longer than any package can be.")
    .transform((text, context) => {
      const json = jsonOf(text);
      const say = (message: string) => {
        context.addIssue({ code: "custom", message });
        return z.NEVER;
      };
      if ("failed" in json) return say(json.failed);
      const other =
        otherFormat(json.value, "throttlewright-package", "a package's file", [1]) ??
        otherFormat(
          (json.value as { recipe?: unknown }).recipe,
          "throttlewright-recipe",
          "a recipe",
          RECIPE_VERSIONS,
        );
      if (other) return say(other);
      const given = json.value as { recipe?: unknown };
      const file = PackageFileSchema.safeParse({ ...given, recipe: upgraded(given.recipe) });
      return file.success ? file.data : tell(context, fileIssues(file.error.issues, given));
    }),
});
export const CopyPackageSchema = z.object({ packageId: id, code, name: packageName });
export const RenamePackageSchema = z.object({
  packageId: id,
  version,
  name: packageName,
  summary: z.string().trim().max(400, "Keep this within 400 characters.").default(""),
});
export const PutBackSchema = z.object({ packageId: id, version, recipe: RecipeText });
export type ImportPackage = z.output<typeof ImportPackageSchema>;
export type CopyPackage = z.output<typeof CopyPackageSchema>;

export const AddRevisionSchema = z.object({
  packageId: id,
  recipe: RecipeText,
  /** The newest revision and its version when the text was opened; absent where nobody else can have written. */
  seen: z.string().max(40).optional(),
  over: z.record(z.string().max(40), z.string().max(40)).optional(),
});
/** What was different on a job, by the marks of the differences. */
export const KeepDifferentSchema = z.object({
  jobId: id,
  packageId: id,
  kept: z.array(z.string().max(300)).min(1, "Tick at least one.").max(300),
});
export const DropDraftSchema = z.object({ packageId: id, version });
export const PublishRevisionSchema = z.object({ revisionId: id, version });
export const RetirePackageSchema = z.object({ packageId: id, version, active: z.enum(["yes", "no"]) });

export type CreatePackage = z.output<typeof CreatePackageSchema>;
export type PublishRevision = z.output<typeof PublishRevisionSchema>;
export type RetirePackage = z.output<typeof RetirePackageSchema>;
