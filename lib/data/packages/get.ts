import type { ShopHandle } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { type Checked, checkedOf } from "./checked";
import { storedRecipe } from "./stored";

/** `problems` are what keeps a draft from being published. */
export interface RevisionView extends Checked {
  readonly id: number;
  readonly number: number;
  readonly state: "draft" | "published";
  readonly version: number;
  readonly createdAt: Date;
  readonly publishedAt: Date | null;
  readonly recipe: Recipe;
  /** What jobs showed for changes of it, the newest first. */
  readonly evidence: readonly {
    readonly item: string;
    readonly evidence: string;
    readonly jobId: number;
    readonly job: { readonly number: string };
  }[];
  /** False for one kept by an earlier version, which a round has still to check. */
  readonly isChecked: boolean;
}

export interface PackageView {
  readonly id: number;
  readonly code: string;
  readonly name: string;
  readonly summary: string;
  readonly active: boolean;
  readonly version: number;
  readonly revisions: readonly { readonly number: number; readonly state: "draft" | "published" }[];
  readonly shown: RevisionView | null;
}

/** A package with one revision opened: the asked-for number, else the newest. Null where it does not exist. */
export async function getPackage(shop: ShopHandle, id: number, number?: number): Promise<PackageView | null> {
  const row = await shop.read.package.findUnique({
    where: { id },
    select: {
      id: true,
      code: true,
      name: true,
      summary: true,
      active: true,
      version: true,
      revisions: { select: { number: true, state: true }, orderBy: { number: "desc" } },
    },
  });
  if (!row) return null;
  const wanted = number ?? row.revisions[0]?.number;
  if (wanted === undefined) return { ...row, shown: null };
  const revision = await shop.read.packageRevision.findUnique({
    where: { packageId_number: { packageId: id, number: wanted } },
    select: {
      id: true,
      number: true,
      state: true,
      version: true,
      createdAt: true,
      publishedAt: true,
      recipe: true,
      checked: true,
      checkedBy: true,
      evidence: {
        select: { item: true, evidence: true, jobId: true, job: { select: { number: true } } },
        orderBy: { id: "desc" },
        take: 50,
      },
    },
  });
  return revision ? { ...row, shown: viewOf(revision, storedRecipe(revision.recipe)) } : null;
}

const UNCHECKED: Checked = {
  problems: [
    {
      kind: "undecided",
      message:
        "An earlier version wrote this, and it has not been checked since. It is within a quarter of an hour; or save any of it, and it is at once.",
      names: [],
    },
  ],
  presetMinutes: null,
  presetGap: null,
};

function viewOf(
  {
    checked,
    checkedBy,
    ...row
  }: Omit<RevisionView, "recipe" | "isChecked" | keyof Checked> & { checked: unknown; checkedBy: number },
  recipe: Recipe,
): RevisionView {
  const kept = checkedOf({ checked, checkedBy }, recipe);
  return { ...row, recipe, isChecked: kept !== null, ...(kept ?? UNCHECKED) };
}
