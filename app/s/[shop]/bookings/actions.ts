"use server";
import { z } from "zod";
import { book, cancelBooking, moveBooking, restoreBooking } from "@/lib/data/bookings/book";
import { endFeed, makeFeed } from "@/lib/data/bookings/feed";
import { dayOf, instantOf } from "@/lib/domain/schedule/localTime";
import { action } from "@/lib/gate/action";
import { publicUrl } from "@/lib/gate/origin";
import {
  BookSchema,
  CancelBookingSchema,
  MoveBookingSchema,
  RestoreBookingSchema,
} from "@/lib/schemas/bookings";

type Local = { day: string; time: string };

/** A day and a time of the shop's clock as an instant. */
const instant = (local: Local, zone: string) => new Date(instantOf(local.day, local.time, zone));
const orNull = (local: Local | undefined, zone: string) => (local ? instant(local, zone) : null);

export const bookJob = action("booking.write", BookSchema, async (shop, input, call) => {
  const { zone } = shop.settings;
  const place =
    "day" in input
      ? { bayId: input.bayId, staffId: input.staffId, startsAt: instant(input, zone) }
      : { ...input.choice, startsAt: new Date(input.choice.startsAt) };
  const id = await book(shop, {
    jobId: input.jobId,
    ...place,
    minutes: input.minutes,
    dropOffAt: orNull(input.dropOff, zone),
    pickUpAt: orNull(input.pickUp, zone),
    note: input.note,
    key: call.key,
  });
  return {
    to: `/s/${shop.slug}/bookings?day=${dayOf(place.startsAt.getTime(), zone)}#booking-${id}`,
    toast: "Booked.",
  };
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
  return { to: `/s/${shop.slug}/bookings?day=${input.day}#booking-${input.id}`, toast: "Moved." };
});

export const giveUpBooking = action("booking.write", CancelBookingSchema, async (shop, input) => {
  await cancelBooking(shop, input);
  return { toast: "Cancelled. You can take it up again while its time is free." };
});

export const takeUpBooking = action("booking.write", RestoreBookingSchema, async (shop, input) => {
  await restoreBooking(shop, input);
  return { toast: "Booked again." };
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
