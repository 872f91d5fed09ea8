import type { ShopHandle } from "@/lib/db/shop";
import { photosOf } from "./list";

/**
 * The finding that a quote answers, as its customer sees it: only while the quote is out; photos only as far as they were taken before it
 * was sent, since those are what the desk saw when it sent them. Null where the quote answers none.
 */
export async function foundByLink(shop: ShopHandle, revisionId: number) {
  const row = await shop.read.quoteRevision.findUnique({
    where: { id: revisionId },
    select: {
      number: true,
      quote: { select: { state: true, revisionNumber: true, findingId: true, sentAt: true } },
    },
  });
  if (!row || row.number !== row.quote.revisionNumber) return null;
  const { quote } = row;
  if (quote.state !== "sent" || quote.findingId === null || quote.sentAt === null) return null;
  const [finding, photos] = await Promise.all([
    shop.read.finding.findUnique({ where: { id: quote.findingId }, select: { text: true } }),
    shop.read.photo.findMany({
      where: { noun: "finding", nounId: quote.findingId, removedAt: null, at: { lte: quote.sentAt } },
      select: { id: true, width: true, height: true, caption: true, file: true, hash: true },
      orderBy: { id: "asc" },
      take: 40,
    }),
  ]);
  return { text: finding?.text ?? "", photos };
}

/** The photos that go with it. */
export async function photosByLink(shop: ShopHandle, revisionId: number) {
  return (await foundByLink(shop, revisionId))?.photos ?? [];
}

/** The finding that a quote answers, with its photos, for the desk; null where the quote answers none. */
export async function foundFor(shop: ShopHandle, quoteId: number) {
  const quote = await shop.read.quote.findUnique({ where: { id: quoteId }, select: { findingId: true } });
  if (!quote?.findingId) return null;
  const [finding, photos] = await Promise.all([
    shop.read.finding.findUnique({ where: { id: quote.findingId }, select: { text: true } }),
    photosOf(shop, "finding", [quote.findingId]),
  ]);
  return { id: quote.findingId, text: finding?.text ?? "", photos: photos.get(quote.findingId) ?? [] };
}
