import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { comesAt } from "@/lib/domain/schedule/late";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { markBookedIn, markUnbookedIn } from "../jobs/states";
import { bookingOf, guarded } from "./book";
import { bookedFor, FOR } from "./bookedFor";
import { formatsOf, workingMinutes, workingTimeOf } from "./facts";
import { inTheWayOf, takenText } from "./fit";
import { named, subjectOf, tell } from "./subject";
import { firstTimes, firstTimesFor } from "./times";
import { whenText } from "./words";

const DAY = 86_400_000;
/** Longer ago than this nobody waits for it any more (judgement, in days). */
const FURTHEST = 30;

/** Held, and nobody has said that the bike is here. */
const NOT_HERE: Prisma.BookingWhereInput = {
  state: "held",
  arrivedAt: null,
  OR: [{ jobId: null }, { job: { arrivedAt: null, state: { in: ["waiting", "booked"] } } }],
};

/** Bookings whose bike was to be here by now and is not, the longest overdue first. */
export async function listLate(shop: ShopHandle, take = 12) {
  const { now } = shop;
  const rows = await shop.read.booking.findMany({
    where: {
      ...NOT_HERE,
      startsAt: { gt: new Date(now.getTime() - FURTHEST * DAY) },
      AND: [
        { OR: [{ dropOffAt: { lte: now } }, { dropOffAt: null, startsAt: { lte: now } }] },
        { OR: [{ expectedAt: null }, { expectedAt: { lte: now } }] },
      ],
    },
    select: { id: true, version: true, startsAt: true, dropOffAt: true, expectedAt: true, ...FOR },
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
    take,
  });
  return rows.map((row) => ({
    id: row.id,
    job: row.job && { id: row.job.id, number: row.job.number },
    of: bookedFor(row),
    comesAt: comesAt(row),
    called: row.expectedAt !== null,
  }));
}
export type LateBooking = Awaited<ReturnType<typeof listLate>>[number];

interface Seen {
  readonly id: number;
  readonly version: number;
  readonly key?: string | undefined;
}

/** Whoever is late called: the bike comes at another moment, and is asked about from then on. */
export async function comesLater(shop: ShopHandle, input: Seen & { at: Date }): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "heard when a bike comes", { ...input, at: input.at.toISOString() }, async () => {
      const before = await notHereIn(tx, input);
      if (input.at <= shop.now)
        throw new Refusal("This moment has passed.", "Enter when the bike will come.", {
          comes: "It has passed.",
        });
      const formats = await formatsOf(tx);
      if (input.at >= before.endsAt)
        throw new Refusal(
          `The work was to end ${whenText(before.endsAt, formats)}.`,
          "Move the booking to a time after the bike comes.",
          { comes: "The work would be over by then." },
        );
      await guarded(tx, before, { expectedAt: input.at });
      await audit(tx, shop, "heard when it comes", "booking", before.id, { at: input.at.toISOString() });
      return before.id;
    }),
  );
}

/**
 * Nobody came: the bay is free from now on, it is kept on the customer, and they are written to with the next times that are
 * free. Answers when those are.
 */
export async function didNotCome(shop: ShopHandle, input: Seen): Promise<number[]> {
  const free = await nextFree(shop, input.id);
  return shop.write((tx) =>
    once(tx, shop, "recorded that nobody came", input, async () => {
      const before = await notHereIn(tx, input);
      if (comesAt(before) > shop.now)
        throw new Refusal("The bike is not due yet.", "Wait for it, or cancel the booking.", {}, "conflict");
      const subject = await subjectOf(tx, before);
      await guarded(tx, before, { state: "cancelled", noShowAt: shop.now });
      if (before.jobId !== null) await unbookedIn(tx, shop, before.jobId);
      await audit(tx, shop, "did not come", "booking", before.id, named(subject));
      const cancelled = { ...before, version: before.version + 1 };
      await tell(tx, shop, await formatsOf(tx), "missed", subject, cancelled, free);
      return free;
    }),
  );
}

async function unbookedIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const other = await tx.booking.findFirst({
    where: { jobId, state: "held" },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  if (!other) await markUnbookedIn(tx, shop, jobId);
}

/** A booking of which it was said too soon that nobody came, if nothing else was booked in its place. */
export async function cameAfterAll(shop: ShopHandle, input: Seen): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "took back that nobody came", input, async () => {
      const before = await bookingOf(tx, input.id, input.version, "cancelled");
      if (before.noShowAt === null)
        throw new Refusal("This booking was cancelled.", "Take it up again.", {}, "conflict");
      const inTheWay = await inTheWayOf(tx, before, before.id);
      if (inTheWay) {
        const taken = takenText(inTheWay, await formatsOf(tx));
        throw new Refusal(`Its time went to ${taken}.`, "Book the bike in for another time.", {}, "conflict");
      }
      await guarded(tx, before, { state: "held", noShowAt: null });
      if (before.jobId !== null) await markBookedIn(tx, shop, before.jobId);
      await audit(tx, shop, "came after all", "booking", before.id);
      return before.id;
    }),
  );
}

async function notHereIn(tx: ShopTx, { id, version }: Seen) {
  const before = await bookingOf(tx, id, version, "held");
  const here = await tx.booking.findFirst({
    where: { id, ...NOT_HERE },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  if (here) return before;
  throw new Refusal("The bike is here already.", "Open the booking again.", {}, "conflict");
}

/** The next times that are free for what a booking was made for. */
async function nextFree(shop: ShopHandle, id: number): Promise<number[]> {
  const booking = await shop.read.booking.findUnique({ where: { id } });
  if (!booking) return [];
  if (booking.jobId !== null)
    return (await firstTimes(shop, booking.jobId, 3)).times.map(({ startsAt }) => startsAt);
  const { zone } = await formatsOf(shop.read);
  const stretch = { startsAt: booking.startsAt.getTime(), endsAt: booking.endsAt.getTime() };
  const working = await workingTimeOf(shop.read, booking.staffId, zone, dayOf(stretch.startsAt, zone));
  const minutes = Math.max(5, workingMinutes(stretch, working));
  return (await firstTimesFor(shop, minutes, 3)).map(({ startsAt }) => startsAt);
}

/** How often a customer was waited for in vain, and when last; null where they always came. */
export async function noShowsOf(
  shop: ShopHandle,
  customerId: number,
): Promise<{ count: number; last: Date } | null> {
  const where = {
    noShowAt: { not: null },
    OR: [{ customerId, jobId: null }, { job: { customerId } }],
  } satisfies Prisma.BookingWhereInput;
  const [count, last] = await Promise.all([
    shop.read.booking.count({ where }),
    shop.read.booking.findFirst({
      where,
      select: { startsAt: true },
      orderBy: { startsAt: "desc" },
    }),
  ]);
  return last && { count, last: last.startsAt };
}
