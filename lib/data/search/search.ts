import { idsMatching } from "@/lib/db/search";
import type { ShopHandle } from "@/lib/db/shop";
import { found, foundParts, wordsOf } from "../common/narrow";
import { type HitNoun, type HitSource, SOURCES } from "./rows";

export type { HitNoun } from "./rows";

export interface Hit {
  readonly noun: HitNoun;
  readonly id: number;
  readonly label: string;
  readonly sub: string;
  readonly href: string;
}

export interface Hits {
  readonly noun: HitNoun;
  readonly hits: readonly Hit[];
  /** There are more than are shown. */
  readonly more: boolean;
}

const MOST = 8;

/**
 * How many hits of a noun are looked at to find its first by name or code. Where there are more, the noun's own order is
 * walked instead, which so many hits stop soon. Documents and bikes need none: their ids come newest first already.
 */
const MOST_BY_NAME = 300;

/** What is typed as a document's number: "1042", "Q1042", "Q-1042", "#1042". Beyond 32 bits there is no such number. */
function numberIn(text: string): number | null {
  const digits = /^\s*(?:[a-z][a-z\d-]{0,7}?|#)?\s*(\d{1,9})\s*$/i.exec(text)?.[1];
  return digits ? Number(digits) : null;
}

/**
 * Everything of this shop that holds every word typed, or bears the number typed; a part also by its size and by any
 * supplier's code. Up to eight of each noun, the number itself first. Groups without a hit are left out; without
 * `invoices` none are looked for. One query asks all nouns for ids, then only the nouns that had hits are read.
 */
export async function searchAll(
  shop: ShopHandle,
  text: string,
  may: { invoices: boolean } = { invoices: true },
): Promise<Hits[]> {
  const words = wordsOf(text);
  if (words.length === 0) return [];
  const number = numberIn(text);
  const sources = SOURCES.filter((source) => may.invoices || source.noun !== "invoices");
  const held = await idsMatching(
    shop,
    sources.map(({ table, byName }) => ({ table, most: byName ? MOST_BY_NAME + 1 : MOST + 1 })),
    words,
    number,
  );
  const group = async (source: HitSource): Promise<Hits | null> => {
    const ids = held.filter((hit) => hit.table === source.table).map((hit) => hit.id);
    if (ids.length === 0) return null;
    const walked = source.byName && ids.length > MOST_BY_NAME;
    const where = walked
      ? { AND: source.table === "Part" ? foundParts(text) : found(text) }
      : { id: { in: ids } };
    const rows = await source.load(shop.read, where, walked ? MOST + 1 : ids.length);
    const first = (row: (typeof rows)[number]) => Number(number !== null && row.number === number);
    const { noun } = source;
    const path = `/s/${shop.slug}/${noun === "parts" ? "stock" : noun}`;
    return {
      noun,
      more: ids.length > MOST,
      hits: rows
        .sort((a, b) => first(b) - first(a))
        .slice(0, MOST)
        .map(({ id, label, sub }) => ({ noun, id, label, sub, href: `${path}/${id}` })),
    };
  };
  const groups = await Promise.all(sources.map(group));
  return groups.filter((each) => each !== null);
}
