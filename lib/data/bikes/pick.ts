import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import type { Pick, Picks } from "@/lib/schemas/picks";
import { found, rowsMatching } from "../common/narrow";
import { beside, isBlank, MOST_FOUND, picksOf } from "../common/picks";
import { cardYears } from "./cardName";

const BIKE = {
  id: true,
  plate: true,
  year: true,
  modelCard: { select: { make: true, model: true } },
  customer: { select: { name: true } },
} satisfies Prisma.BikeSelect;

const bikePick = (row: Prisma.BikeGetPayload<{ select: typeof BIKE }>): Pick => ({
  value: String(row.id),
  label: `${row.modelCard.make} ${row.modelCard.model}`,
  sub: beside(row.year, row.plate, row.customer.name),
});

/** Bikes whose owner, plate or model holds every word typed, newest first. */
export async function pickBikes(shop: ShopHandle, text: string, most = MOST_FOUND): Promise<Picks> {
  const rows = await shop.read.bike.findMany({
    where: await rowsMatching(shop, "Bike", text),
    select: BIKE,
    orderBy: { id: "desc" },
    take: most + 1,
  });
  return picksOf(rows, most, bikePick);
}

/** One bike as a choice; null when there is none. */
export async function pickedBike(shop: ShopHandle, id: number | null | undefined): Promise<Pick | null> {
  const row = id == null ? null : await shop.read.bike.findUnique({ where: { id }, select: BIKE });
  return row && bikePick(row);
}

const CARD = {
  id: true,
  make: true,
  model: true,
  yearFrom: true,
  yearTo: true,
} satisfies Prisma.ModelCardSelect;

const cardPick = (row: Prisma.ModelCardGetPayload<{ select: typeof CARD }>): Pick => ({
  value: String(row.id),
  label: `${row.make} ${row.model}`,
  sub: cardYears(row),
});

/** Model cards whose make and model hold every word typed; the newest where nothing is typed. */
export async function pickModelCards(shop: ShopHandle, text: string, most = MOST_FOUND): Promise<Picks> {
  const rows = await shop.read.modelCard.findMany({
    where: { AND: found(text) },
    select: CARD,
    orderBy: isBlank(text)
      ? { id: "desc" }
      : [{ make: "asc" }, { model: "asc" }, { yearFrom: "asc" }, { id: "asc" }],
    take: most + 1,
  });
  return picksOf(rows, most, cardPick);
}

/** One model card as a choice; null when there is none. */
export async function pickedModelCard(shop: ShopHandle, id: number | null | undefined): Promise<Pick | null> {
  const row = id == null ? null : await shop.read.modelCard.findUnique({ where: { id }, select: CARD });
  return row && cardPick(row);
}
