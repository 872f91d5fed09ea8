import { giveWay } from "@/lib/db/giveWay";
import type { ShopReader } from "@/lib/db/shop";
import { namesOf } from "@/lib/domain/packages/supplies";
import { recipeOf } from "@/lib/domain/packages/work";
import { handPartsOf } from "@/lib/domain/quoting/handParts";
import { storedTerms } from "@/lib/schemas/quoteTerms";
import { storedRecipe } from "../packages/stored";
import { storedWork, WORKS } from "../packages/works";

/** What a part is named by: its code, and the codes of parts that were merged into it. */
async function codesOf(reads: ShopReader, part: { id: number; code: string }): Promise<Set<string>> {
  const merged = await reads.knownKey.findMany({
    where: { noun: "part", nounId: part.id },
    select: { key: true },
    orderBy: { key: "asc" },
    take: 200,
  });
  return new Set([part.code, ...merged.map((row) => row.key)]);
}

/** Names of the packages whose published revision in use, or whose draft, takes a part. */
export async function packagesNaming(
  reads: ShopReader,
  part: { id: number; code: string },
): Promise<string[]> {
  const codes = await codesOf(reads, part);
  const all = await reads.package.findMany({
    select: { id: true, name: true },
    orderBy: { name: "asc" },
    take: 2_000,
  });
  const naming: string[] = [];
  for (const { id, name } of all) {
    await giveWay();
    const revisions = await reads.packageRevision.findMany({
      where: { packageId: id },
      select: { recipe: true },
      orderBy: { number: "desc" },
      // The published one that new quotes use is the newest, or stands under a draft.
      take: 2,
    });
    if (revisions.some(({ recipe }) => names(storedRecipe(recipe), codes))) naming.push(name);
  }
  return naming;
}

/** Numbers of the quotes not yet answered that take a part. */
export async function quotesNaming(reads: ShopReader, part: { id: number; code: string }): Promise<string[]> {
  const codes = await codesOf(reads, part);
  const open = await reads.quote.findMany({
    where: { state: { in: ["draft", "sent"] } },
    select: { id: true, number: true, revisionNumber: true },
    orderBy: { id: "asc" },
    take: 5_000,
  });
  const naming: string[] = [];
  for (const { id, number, revisionNumber } of open) {
    await giveWay();
    const revision = await reads.quoteRevision.findUnique({
      where: { quoteId_number: { quoteId: id, number: revisionNumber } },
      select: { works: WORKS, terms: true },
    });
    const recipes = (revision?.works ?? []).map((row) => recipeOf(storedWork(row)));
    const byHand = handPartsOf(storedTerms(revision?.terms)).some((part) => codes.has(part.code));
    if (byHand || recipes.some((recipe) => names(recipe, codes))) naming.push(number);
  }
  return naming;
}

const names = (recipe: Parameters<typeof namesOf>[0], codes: ReadonlySet<string>): boolean =>
  namesOf(recipe).codes.some((code) => codes.has(code));
