import type { ShopHandle } from "@/lib/db/shop";
import { type FrozenQuote, storedQuote } from "../documents/quote";

/** A quote's newest sent revision, or the one asked for; null where there is none. */
export async function sentQuotePaper(
  shop: ShopHandle,
  quoteId: number,
  revision?: number,
): Promise<FrozenQuote | null> {
  const rows = await shop.read.quoteRevision.findMany({
    where: { quoteId, frozenAt: { not: null }, ...(revision ? { number: revision } : {}) },
    select: { frozen: true },
    orderBy: { number: "desc" },
    take: 1,
  });
  return rows[0] ? storedQuote(rows[0].frozen) : null;
}

/** A sent revision by its id; null where it was never sent. */
export async function sentQuoteOf(shop: ShopHandle, revisionId: number): Promise<FrozenQuote | null> {
  const row = await shop.read.quoteRevision.findUnique({
    where: { id: revisionId },
    select: { frozen: true },
  });
  return row?.frozen ? storedQuote(row.frozen) : null;
}
