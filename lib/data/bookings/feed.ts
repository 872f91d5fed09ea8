import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { newToken } from "@/lib/db/token";
import { Refusal } from "@/lib/domain/refusal";

import { bookedFor, FOR } from "./bookedFor";

const DAY = 86_400_000;

function own(shop: ShopHandle): number {
  if (shop.by.staffId !== null) return shop.by.staffId;
  throw new Refusal(
    "You have no bookings of your own here.",
    "Ask an owner to add you to the shop's people.",
  );
}

/** A private calendar address for whoever asks; the one there was stops working. Its text is told only now. */
export async function makeFeed(shop: ShopHandle): Promise<string> {
  const staffId = own(shop);
  const token = newToken();
  const fresh = { tokenHash: token.hash, createdAt: shop.now };
  await shop.write(async (tx) => {
    await tx.calendarFeed.upsert({
      where: { staffId },
      create: { staffId, ...fresh },
      update: fresh,
      select: { id: true },
    });
    await audit(tx, shop, "made a calendar address", "person", staffId);
  });
  return token.text;
}

export async function endFeed(shop: ShopHandle): Promise<void> {
  const staffId = own(shop);
  await shop.write(async (tx) => {
    const { count } = await tx.calendarFeed.deleteMany({ where: { staffId } });
    if (count > 0) await audit(tx, shop, "ended a calendar address", "person", staffId);
  });
}

/** When the asking person's address was made; null where there is none. */
export async function feedSince(shop: ShopHandle): Promise<Date | null> {
  if (shop.by.staffId === null) return null;
  const found = await shop.read.calendarFeed.findUnique({
    where: { staffId: shop.by.staffId },
    select: { createdAt: true },
  });
  return found?.createdAt ?? null;
}

/** The calendar address of the whole shop; the one there was stops working. Its text is told only now. */
export async function makeShopFeed(shop: ShopHandle): Promise<string> {
  const token = newToken();
  const fresh = { tokenHash: token.hash, createdAt: shop.now };
  await shop.write(async (tx) => {
    await tx.shopCalendar.upsert({
      where: { id: 1 },
      create: { id: 1, ...fresh },
      update: fresh,
      select: { id: true },
    });
    await audit(tx, shop, "made the shop's calendar address", "shop", null);
  });
  return token.text;
}

export async function endShopFeed(shop: ShopHandle): Promise<void> {
  await shop.write(async (tx) => {
    const { count } = await tx.shopCalendar.deleteMany({ where: { id: 1 } });
    if (count > 0) await audit(tx, shop, "ended the shop's calendar address", "shop", null);
  });
}

/** When the shop's address was made; null where there is none. */
export async function shopFeedSince(shop: ShopHandle): Promise<Date | null> {
  const found = await shop.read.shopCalendar.findUnique({ where: { id: 1 }, select: { createdAt: true } });
  return found?.createdAt ?? null;
}

const FED = {
  id: true,
  startsAt: true,
  endsAt: true,
  state: true,
  note: true,
  version: true,
  bay: { select: { name: true } },
  staff: { select: { name: true } },
  ...FOR,
} as const;

/**
 * One person's bookings from two months ago on, or everybody's where no person is named; the cancelled ones too, so that a
 * calendar takes them out.
 */
export async function fedBookings(shop: ShopHandle, staffId: number | null) {
  const rows = await shop.read.booking.findMany({
    where: {
      ...(staffId === null ? {} : { staffId }),
      endsAt: { gte: new Date(shop.now.getTime() - 60 * DAY) },
    },
    select: FED,
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
    take: staffId === null ? 2000 : 500,
  });
  return rows.map(({ job, ...row }) => ({ ...row, jobId: job?.id ?? null, of: bookedFor({ ...row, job }) }));
}

export type FedBooking = Awaited<ReturnType<typeof fedBookings>>[number];
