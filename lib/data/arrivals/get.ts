import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { type BikePart, type Damage, placeOf, type Side } from "@/lib/domain/arrival/damage";
import type { Mark } from "@/lib/domain/arrival/motorcycle";
import { SHEET_WIDTH } from "@/lib/domain/procedures/drawing";
import { bikeName } from "../bikes/bikeName";
import { type ListedPhoto, photosOf } from "../photos/list";

const VIEW = {
  id: true,
  bikeId: true,
  at: true,
  staffId: true,
  odometerKm: true,
  fuelEighths: true,
  keys: true,
  accessories: true,
  words: true,
  signedAt: true,
  signedBy: true,
  signature: true,
  replacesId: true,
  version: true,
  bookingId: true,
  job: { select: { id: true, number: true } },
  replacedBy: { select: { id: true } },
  bike: {
    select: {
      id: true,
      year: true,
      plate: true,
      customer: { select: { id: true, name: true, language: true } },
      modelCard: { select: { make: true, model: true } },
    },
  },
  damages: {
    select: { id: true, firstId: true, side: true, part: true, what: true, x: true, y: true, note: true },
    orderBy: { id: "asc" },
    take: 40,
  },
} satisfies Prisma.ArrivalSelect;

type Row = Prisma.ArrivalGetPayload<{ select: typeof VIEW }>;

/** A mark as it is shown: numbered in its record's order. */
export interface DamageView {
  readonly id: number;
  readonly number: number;
  readonly side: Side;
  readonly part: BikePart;
  readonly what: Damage;
  /** Where it was touched; null where the part was named. */
  readonly x: number | null;
  readonly y: number | null;
  readonly note: string;
  readonly photos: readonly ListedPhoto[];
}

async function viewOf(shop: ShopHandle, { damages, bike, ...row }: Row) {
  const [photos, staff] = await Promise.all([
    photosByDamage(shop, damages),
    row.staffId === null
      ? null
      : shop.read.staff.findUnique({ where: { id: row.staffId }, select: { name: true } }),
  ]);
  return {
    ...row,
    bike: { id: bike.id, name: bikeName(bike), plate: bike.plate },
    customer: bike.customer,
    takenBy: staff?.name ?? "",
    damages: damages.map(
      ({ firstId: _, ...one }, at): DamageView => ({
        ...one,
        side: one.side as Side,
        part: one.part as BikePart,
        what: one.what as Damage,
        number: at + 1,
        photos: photos.get(one.id) ?? [],
      }),
    ),
  };
}
export type ArrivalView = Awaited<ReturnType<typeof viewOf>>;

/** Photos of each mark, and those of the marks that it goes back to. */
async function photosByDamage(
  shop: ShopHandle,
  damages: Row["damages"],
): Promise<Map<number, ListedPhoto[]>> {
  if (damages.length === 0) return new Map();
  const firsts = damages.flatMap(({ firstId }) => (firstId === null ? [] : [firstId]));
  const older = await shop.read.arrivalDamage.findMany({
    where: { OR: [{ id: { in: firsts } }, { firstId: { in: firsts } }] },
    select: { id: true, firstId: true },
    orderBy: { id: "asc" },
    take: 400,
  });
  const photos = await photosOf(
    shop,
    "damage",
    [...damages, ...older].map(({ id }) => id),
  );
  return new Map(
    damages.map(({ id, firstId }) => {
      const before = older.filter((one) => one.id < id && (one.firstId ?? one.id) === firstId);
      return [id, [...before, { id }].flatMap((one) => photos.get(one.id) ?? [])];
    }),
  );
}

/** One record of how a bike came; null where there is none. */
export async function getArrival(shop: ShopHandle, id: number): Promise<ArrivalView | null> {
  const row = await shop.read.arrival.findUnique({ where: { id }, select: VIEW });
  return row && viewOf(shop, row);
}

/** How a job's bike came, by the record that stands; null where nobody took it down. */
export async function arrivalOfJob(shop: ShopHandle, jobId: number): Promise<ArrivalView | null> {
  const row = await shop.read.arrival.findFirst({
    where: { jobId, replacedBy: null },
    select: VIEW,
    orderBy: { id: "desc" },
  });
  return row && viewOf(shop, row);
}

/** The record that stands of a job's or a booking's bike; null where nobody took it down. */
export async function standingArrival(
  shop: ShopHandle,
  of: { readonly jobId: number } | { readonly bookingId: number },
): Promise<number | null> {
  const row = await shop.read.arrival.findFirst({
    where: { ...of, replacedBy: null },
    select: { id: true },
    orderBy: { id: "desc" },
  });
  return row?.id ?? null;
}

/** A bike's records that stand, newest first. */
export async function arrivalsOfBike(shop: ShopHandle, bikeId: number) {
  return shop.read.arrival.findMany({
    where: { bikeId, replacedBy: null },
    select: { id: true, at: true, odometerKm: true, signedAt: true },
    orderBy: { id: "desc" },
    take: 30,
  });
}

/** What a bike's owner said when it came in last; empty where nothing was taken down. */
export async function wordsOnArrival(shop: ShopHandle, bikeId: number): Promise<string> {
  const row = await shop.read.arrival.findFirst({
    where: { bikeId, replacedBy: null },
    select: { words: true },
    orderBy: { id: "desc" },
  });
  return row?.words ?? "";
}

/** The marks on one side as they are drawn: where they were touched, else where the part lies. */
export function marksOn(side: Side, damages: readonly Omit<DamageView, "photos">[]): Mark[] {
  return damages
    .filter((one) => one.side === side)
    .map(({ number, part, x, y }) => {
      const [atX, atY] = placeOf(part, side, SHEET_WIDTH);
      return { number, x: x ?? atX, y: y ?? atY };
    });
}
