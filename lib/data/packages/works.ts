import type { Work } from "@/lib/domain/packages/work";
import { type Composed, composeWorks } from "@/lib/domain/quoting/composeWorks";
import { readRecipe } from "@/lib/schemas/recipeVersions";
import { MOST_WORKS, storedParts, storedText, storedWritten } from "@/lib/schemas/works";
import { storedRecipe } from "./stored";

/** What is selected of a quote revision's works, in their order. */
export const WORKS = {
  select: {
    key: true,
    kind: true,
    data: true,
    packageRevision: {
      select: { id: true, number: true, recipe: true, package: { select: { id: true, name: true } } },
    },
  },
  orderBy: { position: "asc" },
  take: MOST_WORKS,
} as const;

export interface WorkRow {
  readonly key: string;
  readonly kind: "package" | "written" | "parts" | "text";
  readonly data: unknown;
  readonly packageRevision: {
    readonly id: number;
    readonly number: number;
    readonly recipe: unknown;
    readonly package: { readonly id: number; readonly name: string };
  } | null;
}

/** A work out of the database. It went in through a schema, so a failure here is a damaged record. */
export function storedWork({ key, kind, data, packageRevision }: WorkRow): Work {
  if (kind === "written") return { key, kind, ...storedWritten(data) };
  if (kind === "parts") return { key, kind, ...storedParts(data) };
  if (kind === "text") return { key, kind, ...storedText(data) };
  if (!packageRevision) throw new Error(`The work “${key}” is a package and names none.`);
  return { key, kind, name: packageRevision.package.name, recipe: storedRecipe(packageRevision.recipe) };
}

/** The works of a revision as one recipe. */
export const composedOf = (rows: readonly WorkRow[]): Composed => composeWorks(rows.map(storedWork));

/** The same, null where a recipe among them cannot be read. */
export function composedIfRead(rows: readonly WorkRow[]): Composed | null {
  const unread = rows.some(
    ({ packageRevision }) => packageRevision && !readRecipe(packageRevision.recipe).success,
  );
  return unread ? null : composedOf(rows);
}
