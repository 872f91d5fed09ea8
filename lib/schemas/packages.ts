import { z } from "zod";
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
    const recipe = RecipeSchema.safeParse(json.value);
    if (recipe.success) return recipe.data;
    const said = recipe.error.issues
      .slice(0, 8)
      .map((i) => `${i.path.join(".") || "the recipe"}: ${i.message}`);
    context.addIssue({ code: "custom", message: said.join(" · ") });
    return z.NEVER;
  });

function parsedJson(text: string): { value: unknown } | { failed: string } {
  try {
    return { value: JSON.parse(text) as unknown };
  } catch (cause) {
    if (!(cause instanceof SyntaxError)) throw cause;
    return { failed: cause.message };
  }
}

export const AddRevisionSchema = z.object({ packageId: id, recipe: RecipeText });
export const PublishRevisionSchema = z.object({ revisionId: id, version });
export const RetirePackageSchema = z.object({ packageId: id, version, active: z.enum(["yes", "no"]) });

export type CreatePackage = z.output<typeof CreatePackageSchema>;
export type AddRevision = z.output<typeof AddRevisionSchema>;
export type PublishRevision = z.output<typeof PublishRevisionSchema>;
export type RetirePackage = z.output<typeof RetirePackageSchema>;
