import type { ShopHandle } from "@/lib/db/shop";
import { searchKey, searchWords } from "@/lib/domain/searchKey";
import type { Pick, Picks } from "@/lib/schemas/picks";
import { partsMatching } from "../common/narrow";
import { isBlank, MOST_FOUND, picksOf } from "../common/picks";

/**
 * Parts in use that hold every word typed, by code, each chosen by its code; the newest where nothing is typed. With
 * `families` the drawers of jets whose name holds the words come first: a recipe may leave the size to be computed.
 */
export async function pickParts(
  shop: ShopHandle,
  text: string,
  { families = false, most = MOST_FOUND }: { families?: boolean; most?: number } = {},
): Promise<Picks> {
  const drawers = families ? await drawersOf(shop, text, most) : [];
  const rows = await shop.read.part.findMany({
    where: { active: true, AND: [await partsMatching(shop, text)] },
    select: { code: true, name: true, replacedBy: { select: { code: true } } },
    orderBy: isBlank(text) ? { id: "desc" } : { code: "asc" },
    take: most + 1 - Math.min(most, drawers.length),
  });
  const parts = rows.map(({ code, name, replacedBy }) => ({
    value: code,
    label: code,
    sub: replacedBy ? `${name}, made no more: ${replacedBy.code}` : name,
  }));
  return picksOf([...drawers.slice(0, most), ...parts], most, (pick) => pick);
}

/** A shop has some dozens of drawers: their names are matched here, as a search folds them. */
async function drawersOf(shop: ShopHandle, text: string, most: number): Promise<Pick[]> {
  const rows = await shop.read.part.findMany({
    where: { active: true, kind: "jet", family: { not: "" } },
    select: { family: true },
    distinct: ["family"],
    orderBy: { family: "asc" },
    take: 60,
  });
  const words = searchWords(text);
  return rows
    .filter(({ family }) => words.every((word) => searchKey(family).includes(word)))
    .slice(0, Math.ceil(most / 2))
    .map(({ family }) => ({ value: family, label: family, sub: "drawer of jets, size computed" }));
}
