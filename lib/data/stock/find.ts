import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import { jetSizeMilli, parseJetSize } from "@/lib/domain/stock/jets";
import { LIES } from "./lying";

/** What a word says as a size: "122.5", "122,5" and "#122.5" are 122 500; null where it says none. */
export function sizeOf(word: string): number | null {
  try {
    return jetSizeMilli(parseJetSize(word));
  } catch (cause) {
    if (cause instanceof Refusal) return null;
    throw cause;
  }
}

/** Parts that hold every word: in code, name, kind, family, supplier or usual bin, as the name of a bin they lie in, as a size, or as any supplier's code. */
export function wordsWhere(text: string): Prisma.PartWhereInput {
  const words = text.trim().split(/\s+/).filter(Boolean);
  if (words.length === 0) return {};
  return {
    AND: words.map((word) => {
      const key = searchKey(word);
      const size = sizeOf(word);
      return {
        OR: [
          { searchKey: { contains: key } },
          { suppliers: { some: { codeKey: { contains: key } } } },
          { bins: { some: { bin: { in: [word, word.toUpperCase()] }, onHandMilli: { gt: 0 } } } },
          ...(size === null ? [] : [{ sizeMilli: size }]),
        ],
      };
    }),
  };
}

const FOUND = {
  id: true,
  code: true,
  name: true,
  unit: true,
  bin: true,
  onHandMilli: true,
  reservedMilli: true,
  onOrderMilli: true,
  active: true,
  bins: LIES,
} satisfies Prisma.PartSelect;

/** What a label or a bag says: the part of that code, else those that a supplier knows by it, else those that hold its words. */
export async function findScanned(shop: ShopHandle, scanned: string, take = 8) {
  const text = scanned
    .normalize("NFC")
    .replace(/\p{Cc}/gu, "")
    .trim();
  if (text === "") return [];
  const exact = await shop.read.part.findUnique({ where: { code: text }, select: FOUND });
  if (exact) return [exact];
  const key = searchKey(text);
  const supplied = await shop.read.part.findMany({
    where: { OR: [{ suppliers: { some: { codeKey: key } } }, { supplierCode: text }] },
    select: FOUND,
    orderBy: { code: "asc" },
    take,
  });
  if (supplied.length > 0) return supplied;
  return shop.read.part.findMany({
    where: { active: true, ...wordsWhere(text) },
    select: FOUND,
    orderBy: { code: "asc" },
    take,
  });
}

/** Jobs going on that hold some of a part, for using it in one tap. */
export async function promisesOf(shop: ShopHandle, partId: number) {
  return shop.read.reservation.findMany({
    where: {
      partId,
      state: "held",
      heldMilli: { gt: 0 },
      job: { state: { in: ["waiting", "booked", "inWork", "ride"] } },
    },
    select: {
      id: true,
      heldMilli: true,
      job: { select: { id: true, number: true, title: true, state: true } },
    },
    orderBy: [{ jobId: "asc" }, { id: "asc" }],
    take: 12,
  });
}
