import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayOf } from "@/lib/domain/schedule/localTime";
import type { Visited } from "@/lib/domain/schedule/visit";
import { markBookedIn, markUnbookedIn } from "../jobs/states";
import { formatsOf, workingMinutes, workingTimeOf } from "./facts";
import { fitIn, type Wanted } from "./fit";
import { jobOf, named, ofJob, type Subject, subjectOf, tell, told } from "./subject";
import { remainingMinutes } from "./times";
import { whenText } from "./words";

export interface BookInput extends Wanted {
  jobId: number;
  key?: string | undefined;
}

/** Books a bay and a person for a job's working minutes. Returns the booking's id. */
export async function book(shop: ShopHandle, input: BookInput): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "booked", input, async () => {
      const job = await jobOf(tx, input.jobId);
      const subject = ofJob(job);
      const formats = await formatsOf(tx);
      await markBookedIn(tx, shop, job.id);
      const fitted = await fitIn(tx, shop, formats, input, input.minutes ?? remainingMinutes(job), null);
      const made = await tx.booking.create({ data: { jobId: job.id, ...fitted }, select: { id: true } });
      await audit(tx, shop, "booked", "booking", made.id, told(fitted, subject));
      await tell(tx, shop, formats, "made", subject, { ...fitted, id: made.id, version: 1 });
      return made.id;
    }),
  );
}

export interface MoveBookingInput extends Wanted {
  id: number;
  version: number;
  key?: string | undefined;
}

/** Moves a booking to another time, bay or person; its working minutes stay unless others are given. */
export async function moveBooking(shop: ShopHandle, input: MoveBookingInput): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "moved a booking", input, async () => {
      const before = await bookingOf(tx, input.id, input.version, "held");
      const subject = await subjectOf(tx, before);
      const formats = await formatsOf(tx);
      const minutes =
        input.minutes ?? (await minutesOf(tx, before, formats.zone)) ?? planned(subject, before);
      const fitted = await fitIn(tx, shop, formats, along(before, input), minutes, before.id);
      await guarded(tx, before, { ...fitted, expectedAt: null });
      await audit(tx, shop, "moved", "booking", before.id, told(fitted, subject));
      if (
        fitted.startsAt.getTime() !== before.startsAt.getTime() ||
        fitted.endsAt.getTime() !== before.endsAt.getTime()
      )
        await tell(tx, shop, formats, "moved", subject, changed(before, fitted));
      return before.id;
    }),
  );
}

/**
 * Drop-off and pick-up that were left as they were go along with a booking that moves: the one with its start, the other with
 * its end. A note that nobody touched stays.
 */
function along(before: BookingOf, wanted: MoveBookingInput): Wanted {
  const by = wanted.startsAt.getTime() - before.startsAt.getTime();
  const left = (was: Date | null, now: Date | null | undefined) =>
    was !== null && (now === undefined || now?.getTime() === was.getTime());
  const { dropOffAt, pickUpAt } = before;
  return {
    ...wanted,
    note: wanted.note ?? before.note,
    dropOffAt:
      dropOffAt && left(dropOffAt, wanted.dropOffAt) ? new Date(dropOffAt.getTime() + by) : wanted.dropOffAt,
    ...(pickUpAt && left(pickUpAt, wanted.pickUpAt)
      ? { pickUpAt: null, pickUpAfter: pickUpAt.getTime() - before.endsAt.getTime() }
      : {}),
  };
}

/** Cancels a booking; a job without another one waits again. */
export async function cancelBooking(
  shop: ShopHandle,
  input: { id: number; version: number; why?: string | undefined },
): Promise<void> {
  await shop.write(async (tx) => {
    const before = await bookingOf(tx, input.id, input.version, "held");
    const subject = await subjectOf(tx, before);
    await guarded(tx, before, { state: "cancelled" });
    const { jobId } = before;
    const other =
      jobId !== null &&
      (await tx.booking.findFirst({
        where: { jobId, state: "held" },
        select: { id: true },
        orderBy: { id: "asc" },
      }));
    if (jobId !== null && !other) await markUnbookedIn(tx, shop, jobId);
    await audit(tx, shop, "cancelled", "booking", before.id, { ...named(subject), why: input.why ?? "" });
    if (before.startsAt > shop.now)
      await tell(tx, shop, await formatsOf(tx), "cancelled", subject, changed(before));
  });
}

/**
 * Frees what a job that is abandoned still holds in the bays: where work has begun, bookings before now are done and end now; all
 * others are cancelled, and the customer is told of each time that was still to come.
 */
export async function tellCancelledIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const held = await tx.booking.findMany({
    where: { jobId, state: "held" },
    orderBy: { startsAt: "asc" },
    take: 50,
  });
  if (held.length === 0) return;
  const [subject, formats] = [ofJob(await jobOf(tx, jobId)), await formatsOf(tx)];
  const { startedAt } = await tx.job.findUniqueOrThrow({
    where: { id: jobId },
    select: { startedAt: true },
  });
  for (const before of held) {
    if (startedAt && before.startsAt < shop.now) {
      const endsAt = new Date(Math.min(before.endsAt.getTime(), shop.now.getTime()));
      await guarded(tx, before, { endsAt, state: "done" });
      continue;
    }
    await guarded(tx, before, { state: "cancelled" });
    await audit(tx, shop, "cancelled", "booking", before.id, {
      ...named(subject),
      why: "The job is cancelled.",
    });
    if (before.startsAt > shop.now) await tell(tx, shop, formats, "cancelled", subject, changed(before));
  }
}

/** Takes a cancelled booking up again, if its time is still free. */
export async function restoreBooking(
  shop: ShopHandle,
  input: { id: number; version: number },
): Promise<void> {
  await shop.write(async (tx) => {
    const before = await bookingOf(tx, input.id, input.version, "cancelled");
    const subject = await subjectOf(tx, before);
    const formats = await formatsOf(tx);
    const minutes = (await minutesOf(tx, before, formats.zone)) ?? planned(subject, before);
    if (before.jobId !== null) await markBookedIn(tx, shop, before.jobId);
    const fitted = await fitIn(tx, shop, formats, before, minutes, before.id);
    await guarded(tx, before, { ...fitted, state: "held", noShowAt: null, expectedAt: null });
    await audit(tx, shop, "taken up again", "booking", before.id, told(fitted, subject));
    await tell(tx, shop, formats, "made", subject, changed(before, fitted));
  });
}

/** The minutes to do where those a booking was made for cannot be told any more. */
const planned = ({ job }: Subject, { startsAt, endsAt }: BookingOf): number =>
  job ? remainingMinutes(job) : Math.max(5, Math.round((endsAt.getTime() - startsAt.getTime()) / 60_000));

type BookingOf = Awaited<ReturnType<typeof bookingOf>>;

/** A booking as it was seen. */
export async function bookingOf(tx: ShopTx, id: number, version: number, state: "held" | "cancelled") {
  const found = await tx.booking.findUnique({ where: { id } });
  if (!found) throw new Refusal("There is no such booking.", "Open it from the bookings.", {}, "missing");
  if (found.version !== version || found.state !== state) throw await changedMeanwhile(tx, found);
  return found;
}

/** Changes a booking as it was seen. */
export async function guarded(
  tx: ShopTx,
  before: BookingOf,
  data: Parameters<ShopTx["booking"]["updateMany"]>[0]["data"],
) {
  await demandOne(
    tx.booking.updateMany({
      where: { id: before.id, version: before.version, state: before.state },
      data: { ...data, version: { increment: 1 } },
    }),
    () => changedMeanwhile(tx, before),
  );
}

async function changedMeanwhile(
  tx: ShopTx,
  booking: { id: number; startsAt: Date; state: string },
): Promise<Refusal> {
  const formats = await formatsOf(tx);
  const last = await tx.auditEntry.findFirst({
    where: { noun: "booking", nounId: booking.id },
    select: { personName: true },
    orderBy: { id: "desc" },
  });
  const now =
    booking.state === "held" ? `it is ${whenText(booking.startsAt, formats)}` : `it is ${booking.state}`;
  return new Refusal(
    `${last?.personName ?? "Someone"} changed this booking meanwhile: ${now}.`,
    "Reload it, then make your change again.",
    {},
    "conflict",
  );
}

/** The working minutes a booking was made for; null where its person's hours have changed so that none are left. */
async function minutesOf(tx: ShopTx, booking: BookingOf, zone: string): Promise<number | null> {
  const stretch = { startsAt: booking.startsAt.getTime(), endsAt: booking.endsAt.getTime() };
  const working = await workingTimeOf(tx, booking.staffId, zone, dayOf(stretch.startsAt, zone));
  return workingMinutes(stretch, working) || null;
}

/** A booking as it stands after a change. */
const changed = (before: BookingOf, to: Partial<Visited> = {}): Visited => ({
  ...before,
  ...to,
  id: before.id,
  version: before.version + 1,
});
