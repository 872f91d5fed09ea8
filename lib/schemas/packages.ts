import { z } from "zod";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { RecipeSchema } from "./recipe";

export const id = z.coerce.number("Choose one.").int("Choose one.").positive("Choose one.");
export const version = z.coerce.number("Open the page again.").int().positive("Open the page again.");

export const CreatePackageSchema = z.object({
  code: z
    .string()
    .trim()
    .min(1, "Give the package a short code.")
    .max(24, "Keep the code within 24 characters.")
    .regex(/^[A-Za-z0-9][A-Za-z0-9-]*$/, "Use letters, figures and hyphens, without spaces."),
  name: z.string().trim().min(1, "Give the package a name.").max(120, "Keep the name within 120 characters."),
  summary: z.string().trim().max(400, "Keep this within 400 characters.").default(""),
});

const MOST = 400_000;

/** A recipe as pasted text: JSON first, then its shape, each error with the place it stands at. */
export const RecipeText = z
  .string()
  .trim()
  .min(1, "Paste the recipe here.")
  .max(MOST, "This is longer than any recipe can be.")
  .transform((text, context) => {
    const json = parsedJson(text);
    if ("failed" in json) {
      context.addIssue({ code: "custom", message: `This is not JSON: ${json.failed}` });
      return z.NEVER;
    }
    const recipe = RecipeSchema.safeParse(recipeIn(json.value));
    if (recipe.success) return recipe.data;
    const said = recipe.error.issues
      .slice(0, 8)
      .map((i) => `${i.path.join(".") || "the recipe"}: ${i.message}`);
    context.addIssue({ code: "custom", message: said.join(" · ") });
    return z.NEVER;
  });

/** A whole package's file stands for its recipe. */
function recipeIn(value: unknown): unknown {
  const file = PackageFileSchema.safeParse(value);
  return file.success ? file.data.recipe : value;
}

function parsedJson(text: string): { value: unknown } | { failed: string } {
  try {
    return { value: JSON.parse(text) as unknown };
  } catch (cause) {
    if (!(cause instanceof SyntaxError)) throw cause;
    return { failed: cause.message };
  }
}

const code = z
  .string()
  .trim()
  .min(1, "Give the package a short code.")
  .max(24, "Keep the code within 24 characters.")
  .regex(/^[A-Za-z0-9][A-Za-z0-9-]*$/, "Use letters, figures and hyphens, without spaces.");
const packageName = z
  .string()
  .trim()
  .min(1, "Give the package a name.")
  .max(120, "Keep the name within 120 characters.");

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
});
/** What a file holds; the recipe stays as the domain has it. */
export type PackageFile = Omit<z.output<typeof PackageFileSchema>, "recipe"> & { readonly recipe: Recipe };

/** A package's file as text. Blank code or name: as the file says. */
export const ImportPackageSchema = z.object({
  code: z.union([z.literal(""), code]).default(""),
  name: z.string().trim().max(120, "Keep the name within 120 characters.").default(""),
  file: z
    .string()
    .trim()
    .min(1, "Choose a file, or paste its text here.")
    .max(400_000, "This is longer than any package can be.")
    .transform((text, context) => {
      const json = parsedJson(text);
      const say = (message: string) => {
        context.addIssue({ code: "custom", message });
        return z.NEVER;
      };
      if ("failed" in json) return say(`This is not JSON: ${json.failed}`);
      const { format, version: given } = (json.value ?? {}) as { format?: unknown; version?: unknown };
      if (format !== "throttlewright-package")
        return say("This is not a package's file: it should begin with the format “throttlewright-package”.");
      if (given !== 1) return say(`This file is of version ${String(given)}; version 1 can be read.`);
      const file = PackageFileSchema.safeParse(json.value);
      if (file.success) return file.data;
      const said = file.error.issues
        .slice(0, 8)
        .map((i) => `${i.path.join(".") || "the file"}: ${i.message}`);
      return say(said.join(" · "));
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

export const AddRevisionSchema = z.object({ packageId: id, recipe: RecipeText });
export const PublishRevisionSchema = z.object({ revisionId: id, version });
export const RetirePackageSchema = z.object({ packageId: id, version, active: z.enum(["yes", "no"]) });

export type CreatePackage = z.output<typeof CreatePackageSchema>;
export type AddRevision = z.output<typeof AddRevisionSchema>;
export type PublishRevision = z.output<typeof PublishRevisionSchema>;
export type RetirePackage = z.output<typeof RetirePackageSchema>;
