import type { ShopHandle } from "@/lib/db/shop";
import { customerTexts } from "@/lib/domain/packages/customerTexts";
import { storedRecipe } from "./stored";

/** A place where the shop's own words stand, with those that customers read. */
export interface OwnTexts {
  readonly name: string;
  readonly texts: readonly string[];
}

/** What the shop itself says on papers and pages: the note, its terms, the names of its grades of labour. */
export async function textsOfShop({ read }: ShopHandle): Promise<OwnTexts> {
  const { name, documentNote, ownTerms } = await read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { name: true, documentNote: true, ownTerms: true },
  });
  const grades = await read.labourGrade.findMany({
    select: { name: true },
    orderBy: { id: "asc" },
    take: 50,
  });
  const texts = [ownTerms, documentNote, ...grades.map((grade) => grade.name)];
  return { name, texts: [...new Set(texts.filter((text) => text.trim() !== ""))] };
}

/** What customers read of a package as it is sold now; null where there is no such package. */
export async function textsOfPackage({ read }: ShopHandle, id: number): Promise<OwnTexts | null> {
  const row = await read.package.findUnique({
    where: { id },
    select: {
      name: true,
      revisions: {
        where: { state: "published" },
        select: { recipe: true },
        orderBy: { number: "desc" },
        take: 1,
      },
    },
  });
  if (!row) return null;
  const [newest] = row.revisions;
  const texts = newest ? customerTexts(storedRecipe(newest.recipe)) : [];
  return { name: row.name, texts: [...new Set([row.name, ...texts])] };
}
