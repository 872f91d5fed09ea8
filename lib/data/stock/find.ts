import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { searchKey, searchWords } from "@/lib/domain/searchKey";
import { mergedCodes } from "../common/mergedCodes";
import { partsMatching } from "../common/narrow";
import { LIES } from "./lying";
import { newestOf } from "./replacements";

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
  replacedById: true,
} satisfies Prisma.PartSelect;

type Found = Prisma.PartGetPayload<{ select: typeof FOUND }>;

/** What a label or a bag says: the part of that code with what took its place, else those that a supplier knows by it, else those that hold its words. */
export async function findScanned(shop: ShopHandle, scanned: string, take = 8) {
  const text = scanned
    .normalize("NFC")
    .replace(/\p{Cc}/gu, "")
    .trim();
  if (text === "") return [];
  const exact = await shop.read.part.findUnique({ where: { code: text }, select: FOUND });
  const led = exact?.active ? undefined : (await mergedCodes(shop.read, [text])).get(text);
  if (led !== undefined) {
    const kept = await shop.read.part.findUnique({ where: { id: led }, select: FOUND });
    if (kept) return [kept];
  }
  if (exact) return withNewest(shop, exact);
  if (searchWords(text).length === 0) return [];
  // A supplier's code is among what a part is found by, so both questions go to the few rows that hold the words.
  const held = await partsMatching(shop, text);
  const codeKey = searchKey(text);
  const supplied = await shop.read.part.findMany({
    where: { AND: [held, { OR: [{ suppliers: { some: { codeKey } } }, { supplierCode: text }] }] },
    select: FOUND,
    orderBy: { code: "asc" },
    take,
  });
  if (supplied.length > 0) return supplied;
  return shop.read.part.findMany({
    where: { active: true, AND: [held] },
    select: FOUND,
    orderBy: { code: "asc" },
    take,
  });
}

/** A part, and the one that is made today in its place. */
async function withNewest(shop: ShopHandle, part: Found): Promise<Found[]> {
  const newest = (await newestOf(shop.read, [part])).get(part.id);
  const row = newest && (await shop.read.part.findUnique({ where: { id: newest.id }, select: FOUND }));
  return row ? [part, row] : [part];
}

/** Jobs going on that hold some of a part, for using it in one tap. */
export async function reservationsOf(shop: ShopHandle, partId: number) {
  return shop.read.reservation.findMany({
    where: {
      partId,
      state: "held",
      reservedMilli: { gt: 0 },
      job: { state: { in: ["waiting", "booked", "inWork", "ride"] } },
    },
    select: {
      id: true,
      reservedMilli: true,
      job: { select: { id: true, number: true, title: true, state: true } },
    },
    orderBy: [{ jobId: "asc" }, { id: "asc" }],
    take: 12,
  });
}
