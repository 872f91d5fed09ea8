"use server";
import { z } from "zod";
import { book, cancelBooking, moveBooking, restoreBooking } from "@/lib/data/bookings/book";
import { bookIn, bookingToJob } from "@/lib/data/bookings/bookIn";
import { endFeed, endShopFeed, makeFeed, makeShopFeed } from "@/lib/data/bookings/feed";
import { cameAfterAll, comesLater, didNotCome } from "@/lib/data/bookings/late";
import { notTold } from "@/lib/data/bookings/notTold";
import { whenText } from "@/lib/data/bookings/words";
import { dayOf, instantOf } from "@/lib/domain/schedule/localTime";
import { action } from "@/lib/gate/action";
import type { OpenShop } from "@/lib/gate/open";
import { publicUrl } from "@/lib/gate/origin";
import {
  BookInSchema,
  BookingToJobSchema,
  BookSchema,
  CancelBookingSchema,
  ComesLaterSchema,
  MoveBookingSchema,
  MoveOnBoardSchema,
  RestoreBookingSchema,
  SeenBookingSchema,
} from "@/lib/schemas/bookings";

type Local = { day: string; time: string };

/** A day and a time of the shop's clock as an instant. */
const instant = (local: Local, zone: string) => new Date(instantOf(local.day, local.time, zone));
const orNull = (local: Local | undefined, zone: string) => (local ? instant(local, zone) : null);

type Timed = z.output<typeof BookSchema> | z.output<typeof BookInSchema>;

/** Where, with whom, when and what around it, as a form said it. */
function wantedIn(input: Timed, zone: string) {
  const place =
    "day" in input
      ? { bayId: input.bayId, staffId: input.staffId, startsAt: instant(input, zone) }
      : { ...input.choice, startsAt: new Date(input.choice.startsAt) };
  return {
    ...place,
    dropOffAt: orNull(input.dropOff, zone),
    pickUpAt: orNull(input.pickUp, zone),
    note: input.note,
  };
}

const toTheDay = async (shop: OpenShop, startsAt: Date, id: number) => ({
  to: `/s/${shop.slug}/bookings?day=${dayOf(startsAt.getTime(), shop.settings.zone)}#booking-${id}`,
  toast: `Booked. ${await notTold(shop, id, "booking")}`.trim(),
});

export const bookJob = action("booking.write", BookSchema, async (shop, input, call) => {
  const { zone } = shop.settings;
  const wanted = wantedIn(input, zone);
  const { jobId, minutes } = input;
  const id = await book(shop, { jobId, minutes, ...wanted, key: call.key });
  return toTheDay(shop, wanted.startsAt, id);
});

export const bookBikeIn = action("booking.write", BookInSchema, async (shop, input, call) => {
  const { zone } = shop.settings;
  const wanted = wantedIn(input, zone);
  const { bikeId, customerId, guestName, guestPhone, words, minutes } = input;
  const whose = { bikeId, customerId, guestName, guestPhone, words };
  const id = await bookIn(shop, { ...whose, minutes, ...wanted, key: call.key });
  return toTheDay(shop, wanted.startsAt, id);
});

export const giveItsJob = action("booking.write", BookingToJobSchema, async (shop, input, call) => {
  await bookingToJob(shop, { ...input, key: call.key });
  return { toast: "The booking is the job's now." };
});

export const changeBooking = action("booking.write", MoveBookingSchema, async (shop, input, call) => {
  const { zone } = shop.settings;
  await moveBooking(shop, {
    id: input.id,
    version: input.version,
    bayId: input.bayId,
    staffId: input.staffId,
    startsAt: instant(input, zone),
    minutes: input.minutes,
    dropOffAt: orNull(input.dropOff, zone),
    pickUpAt: orNull(input.pickUp, zone),
    note: input.note,
    key: call.key,
  });
  return {
    to: `/s/${shop.slug}/bookings?day=${input.day}#booking-${input.id}`,
    toast: `Moved. ${await notTold(shop, input.id, "change")}`.trim(),
  };
});

export const moveOnBoard = action("booking.write", MoveOnBoardSchema, async (shop, input, call) => {
  const { id, version, bayId, staffId, minutes } = input;
  const { settings } = shop;
  const startsAt = instant(input, settings.zone);
  await moveBooking(shop, { id, version, bayId, staffId, minutes, startsAt, key: call.key });
  return {
    ...(input.day === input.seen ? {} : { to: `/s/${shop.slug}/bookings?day=${input.day}#booking-${id}` }),
    toast: `Moved to ${whenText(startsAt, settings)}. ${await notTold(shop, id, "change")}`.trim(),
  };
});

export const giveUpBooking = action("booking.write", CancelBookingSchema, async (shop, input) => {
  await cancelBooking(shop, input);
  const instead = await notTold(shop, input.id, "cancelled");
  return { toast: `Cancelled. You can take it up again while its time is free. ${instead}`.trim() };
});

export const takeUpBooking = action("booking.write", RestoreBookingSchema, async (shop, input) => {
  await restoreBooking(shop, input);
  return { toast: `Booked again. ${await notTold(shop, input.id, "booking")}`.trim() };
});

export const heardWhenItComes = action("intake.write", ComesLaterSchema, async (shop, input, call) => {
  const { zone } = shop.settings;
  const { id, version, comes } = input;
  if (comes) await comesLater(shop, { id, version, at: instant(comes, zone), key: call.key });
  return { to: `/s/${shop.slug}/bookings/${id}`, toast: "Kept: Today asks again when it was to be here." };
});

export const nobodyCame = action("intake.write", SeenBookingSchema, async (shop, input, call) => {
  const free = await didNotCome(shop, { ...input, key: call.key });
  const { settings } = shop;
  const next = free[0] === undefined ? "" : `The next free time is ${whenText(free[0], settings)}.`;
  const instead = await notTold(shop, input.id, "missed");
  return {
    to: `/s/${shop.slug}/bookings/${input.id}`,
    toast: `Its bay is free. ${next} ${instead}`.replace(/ +/g, " ").trim(),
  };
});

export const itCameAfterAll = action("intake.write", SeenBookingSchema, async (shop, input, call) => {
  await cameAfterAll(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/bookings/${input.id}`, toast: "It is booked as before." };
});

export const makeCalendar = action("booking.read", z.object({}), async (shop) => {
  const token = await makeFeed(shop);
  return {
    toast: "A private address for your calendar is made.",
    shown: { address: `${publicUrl().origin}/api/c/${shop.slug}/calendar/${token}.ics` },
  };
});

export const endCalendar = action("booking.read", z.object({}), async (shop) => {
  await endFeed(shop);
  return { toast: "The address shows nothing any more." };
});

export const makeShopCalendar = action("booking.write", z.object({}), async (shop) => {
  const token = await makeShopFeed(shop);
  return {
    toast: "A private address for the shop's calendar is made.",
    shown: { address: `${publicUrl().origin}/api/c/${shop.slug}/calendar/${token}.ics` },
  };
});

export const endShopCalendar = action("booking.write", z.object({}), async (shop) => {
  await endShopFeed(shop);
  return { toast: "The shop's address shows nothing any more." };
});
