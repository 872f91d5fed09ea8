import { idsMatching, type SearchTable, type SearchWord } from "@/lib/db/search";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { searchWords } from "@/lib/domain/searchKey";
import { jetSizeMilli, parseJetSize } from "@/lib/domain/stock/jets";

/** What a word says as a size: "122.5", "122,5" and "#122.5" are 122 500; null where it says none. */
function sizeOf(word: string): number | null {
  try {
    return jetSizeMilli(parseJetSize(word));
  } catch (cause) {
    if (cause instanceof Refusal) return null;
    throw cause;
  }
}

/** The words of a search, with the sizes they say where parts are among what is looked for. */
export function wordsOf(text: string): SearchWord[] {
  return searchWords(text).map((word) => ({ text: word, size: sizeOf(word) }));
}

/** Every word of a search stands somewhere in the search key. */
export function found(text: string) {
  return searchWords(text).map((word) => ({ searchKey: { contains: word } }));
}

/** Every word stands in a part's key (code, name, kind, family, supplier, bin) or in any supplier's code, or is its size. */
export function foundParts(text: string) {
  return wordsOf(text).map((word) => ({
    OR: [
      { searchKey: { contains: word.text } },
      { suppliers: { some: { codeKey: { contains: word.text } } } },
      ...(word.size == null ? [] : [{ sizeMilli: word.size }]),
    ],
  }));
}

/** Ids are bound as parameters, one by one: many more of them would cost more than they spare. */
const MOST_IDS = 500;

type Where<W> = { id: { in: number[] } } | { AND: W[] };

/**
 * What narrows a list to the rows that hold every word typed, in whatever order and by whatever else the list asks.
 * Few rows are named by their ids, out of the trigrams. Where more than `most` hold the words, the list asks for the words
 * themselves: it walks its own ordered index, and so many hits fill a page soon. Both mean the same rows, page by page.
 */
async function holding<W>(
  shop: ShopHandle,
  table: SearchTable,
  text: string,
  walked: (text: string) => W[],
  most: number,
): Promise<Where<W> | Record<string, never>> {
  const words = wordsOf(text);
  if (words.length === 0) return {};
  const hits = await idsMatching(shop, [{ table, most: most + 1 }], words);
  return hits.length > most ? { AND: walked(text) } : { id: { in: hits.map((hit) => hit.id) } };
}

/** The condition for a list of anything but parts. */
export function rowsMatching(
  shop: ShopHandle,
  table: Exclude<SearchTable, "Part">,
  text: string,
  most = MOST_IDS,
) {
  return holding(shop, table, text, found, most);
}

/** The condition for a list of parts. A single word is also the name of a bin that holds some, besides the usual one. */
export async function partsMatching(shop: ShopHandle, text: string, most = MOST_IDS) {
  const held = await holding(shop, "Part", text, foundParts, most);
  const [word = "", ...others] = text.trim().split(/\s+/);
  if (word === "" || others.length > 0) return held;
  // Asked for by itself: beside the other condition it would make the database walk every part.
  const lying = await shop.read.partBin.findMany({
    where: { bin: { in: [word, word.toUpperCase()] }, onHandMilli: { gt: 0 } },
    select: { partId: true },
    orderBy: { partId: "asc" },
    take: MOST_IDS,
  });
  if (lying.length === 0) return held;
  const also = lying.map((row) => row.partId);
  return "id" in held
    ? { id: { in: [...new Set([...held.id.in, ...also])] } }
    : { OR: [held, { id: { in: also } }] };
}
