import { audit, once } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { spanOf, type WorkingTime, workingIntervals } from "@/lib/domain/schedule/working";
import { markBookedIn, markUnbookedIn } from "../jobs/states";
import { type Place, placeOf, workingMinutes, workingTimeOf } from "./facts";
import { remainingMinutes } from "./times";
import { bookingMail, timeText, whenText } from "./words";

interface Wanted {
  bayId: number;
  staffId: number;
  startsAt: Date;
  dropOffAt?: Date | null | undefined;
  pickUpAt?: Date | null | undefined;
  note?: string | undefined;
  /** Working minutes; the job's remaining minutes when left out. */
  minutes?: number | undefined;
}

export interface BookInput extends Wanted {
  jobId: number;
  key?: string | undefined;
}

/** Books a bay and a person for a job's working minutes. Returns the booking's id. */
export async function book(shop: ShopHandle, input: BookInput): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, input.key, async () => {
      const job = await jobOf(tx, input.jobId);
      const place = await placeOf(tx);
      await markBookedIn(tx, shop, job.id);
      const fitted = await fit(tx, shop, place, input, input.minutes ?? remainingMinutes(job), null);
      const made = await tx.booking.create({ data: { jobId: job.id, ...fitted }, select: { id: true } });
      await audit(tx, shop, "booked", "booking", made.id, told(fitted, job.number));
      await tell(tx, shop, place, "made", job, fitted);
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
    once(tx, shop, input.key, async () => {
      const before = await bookingOf(tx, input.id, input.version, "held");
      const job = await jobOf(tx, before.jobId);
      const place = await placeOf(tx);
      const minutes = input.minutes ?? (await minutesOf(tx, before, place.zone)) ?? remainingMinutes(job);
      const fitted = await fit(tx, shop, place, input, minutes, before.id);
      await guarded(tx, before, fitted);
      await audit(tx, shop, "moved", "booking", before.id, told(fitted, job.number));
      if (fitted.startsAt.getTime() !== before.startsAt.getTime() || fitted.endsAt.getTime() !== before.endsAt.getTime())
        await tell(tx, shop, place, "moved", job, fitted);
      return before.id;
    }),
  );
}

/** Cancels a booking; a job without another one waits again. */
export async function cancelBooking(
  shop: ShopHandle,
  input: { id: number; version: number; why?: string | undefined },
): Promise<void> {
  await shop.write(async (tx) => {
    const before = await bookingOf(tx, input.id, input.version, "held");
    const job = await jobOf(tx, before.jobId);
    await guarded(tx, before, { state: "cancelled" });
    const other = await tx.booking.findFirst({
      where: { jobId: job.id, state: "held" },
      select: { id: true },
      orderBy: { id: "asc" },
    });
    if (!other) await markUnbookedIn(tx, shop, job.id);
    await audit(tx, shop, "cancelled", "booking", before.id, { job: job.number, why: input.why ?? "" });
    if (before.startsAt > shop.now) await tell(tx, shop, await placeOf(tx), "cancelled", job, before);
  });
}

/** Takes a cancelled booking up again, if its time is still free. */
export async function restoreBooking(shop: ShopHandle, input: { id: number; version: number }): Promise<void> {
  await shop.write(async (tx) => {
    const before = await bookingOf(tx, input.id, input.version, "cancelled");
    const job = await jobOf(tx, before.jobId);
    const place = await placeOf(tx);
    const minutes = (await minutesOf(tx, before, place.zone)) ?? remainingMinutes(job);
    await markBookedIn(tx, shop, job.id);
    const fitted = await fit(tx, shop, place, before, minutes, before.id);
    await guarded(tx, before, { ...fitted, state: "held" });
    await audit(tx, shop, "taken up again", "booking", before.id, told(fitted, job.number));
    await tell(tx, shop, place, "made", job, fitted);
  });
}

/** Where a wish falls: its end over working time, after everything that could be in the way was looked at. */
async function fit(tx: ShopTx, shop: ShopHandle, place: Place, wanted: Wanted, minutes: number, self: number | null) {
  const { bayId, staffId, startsAt } = wanted;
  const bay = await tx.bay.findUnique({ where: { id: bayId }, select: { name: true, active: true } });
  if (!bay?.active) throw new Refusal("This bay is not in use.", "Choose another bay.", { bayId: "Choose another bay." });
  const working = await workingTimeOf(tx, staffId, place.zone, dayOf(startsAt.getTime(), place.zone));
  demandWorking(startsAt, working, place);
  const endsAt = new Date(spanOf(startsAt.getTime(), minutes, working));
  if (endsAt <= shop.now)
    throw new Refusal("This time is over already.", "Choose a time that is still to come.", { day: "It is over." });
  await demandFree(tx, place, { bayId, staffId, startsAt, endsAt }, { bay: bay.name, person: working.name }, self);
  const dropOffAt = wanted.dropOffAt ?? null;
  const pickUpAt = wanted.pickUpAt ?? null;
  if (dropOffAt && dropOffAt > startsAt)
    throw new Refusal("The bike would come after the work starts.", "Let it come earlier, or start later.", {
      dropOff: `Work starts ${whenText(startsAt, place)}.`,
    });
  if (pickUpAt && pickUpAt < endsAt)
    throw new Refusal("The bike would be fetched before the work ends.", "Let it be fetched later.", {
      pickUp: `Work ends ${whenText(endsAt, place)}.`,
    });
  return { bayId, staffId, startsAt, endsAt, dropOffAt, pickUpAt, note: wanted.note ?? "" };
}

function demandWorking(startsAt: Date, working: WorkingTime & { name: string }, place: Place): void {
  const at = startsAt.getTime();
  const { hours, closures, absences, zone } = working;
  const shift = workingIntervals(at, at + 60_000, hours, closures, absences, zone)[0];
  if (shift?.startsAt === at) return;
  const next = workingIntervals(at, at + 35 * 86_400_000, hours, closures, absences, zone)[0];
  throw new Refusal(
    `${working.name} does not work ${whenText(startsAt, place)}.`,
    next ? `The next time is ${whenText(next.startsAt, place)}.` : "Choose someone else, or another day.",
    { time: next ? `From ${whenText(next.startsAt, place)}.` : "Not a working time." },
  );
}

async function demandFree(
  tx: ShopTx,
  place: Place,
  wanted: { bayId: number; staffId: number; startsAt: Date; endsAt: Date },
  names: { bay: string; person: string },
  self: number | null,
): Promise<void> {
  const inTheWay = await tx.booking.findFirst({
    where: {
      state: "held",
      startsAt: { lt: wanted.endsAt },
      endsAt: { gt: wanted.startsAt },
      OR: [{ bayId: wanted.bayId }, { staffId: wanted.staffId }],
      ...(self === null ? {} : { id: { not: self } }),
    },
    select: { bayId: true, startsAt: true, endsAt: true, job: { select: { number: true } } },
    orderBy: { startsAt: "asc" },
  });
  if (!inTheWay) return;
  const bayTaken = inTheWay.bayId === wanted.bayId;
  const sameDay = dayOf(inTheWay.startsAt.getTime(), place.zone) === dayOf(inTheWay.endsAt.getTime(), place.zone);
  const until = sameDay ? timeText(inTheWay.endsAt, place.zone) : whenText(inTheWay.endsAt, place);
  const field = bayTaken ? "bayId" : "staffId";
  throw new Refusal(
    `${bayTaken ? names.bay : names.person} has job ${inTheWay.job.number} from ${whenText(inTheWay.startsAt, place)} to ${until}.`,
    `Choose another time, another ${bayTaken ? "bay" : "person"}, or move job ${inTheWay.job.number} first.`,
    { [field]: `Taken by job ${inTheWay.job.number}.` },
    "conflict",
  );
}

type JobOf = Awaited<ReturnType<typeof jobOf>>;

async function jobOf(tx: ShopTx, id: number) {
  const job = await tx.job.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      title: true,
      minutes: true,
      customer: { select: { name: true, email: true } },
      bike: { select: { plate: true, modelCard: { select: { make: true, model: true } } } },
      steps: { select: { minutes: true, state: true }, orderBy: { position: "asc" } },
    },
  });
  if (!job) throw new Refusal("There is no such job.", "Choose one from the list of jobs.", {}, "missing");
  return job;
}

type BookingOf = Awaited<ReturnType<typeof bookingOf>>;

async function bookingOf(tx: ShopTx, id: number, version: number, state: "held" | "cancelled") {
  const found = await tx.booking.findUnique({ where: { id } });
  if (!found) throw new Refusal("There is no such booking.", "Open it from the bookings.", {}, "missing");
  if (found.version !== version || found.state !== state) throw await changedMeanwhile(tx, found);
  return found;
}

async function guarded(tx: ShopTx, before: BookingOf, data: Parameters<ShopTx["booking"]["updateMany"]>[0]["data"]) {
  const { count } = await tx.booking.updateMany({
    where: { id: before.id, version: before.version, state: before.state },
    data: { ...data, version: { increment: 1 } },
  });
  if (count !== 1) throw await changedMeanwhile(tx, before);
}

async function changedMeanwhile(tx: ShopTx, booking: { id: number; startsAt: Date; state: string }): Promise<Refusal> {
  const place = await placeOf(tx);
  const last = await tx.auditEntry.findFirst({
    where: { noun: "booking", nounId: booking.id },
    select: { personName: true },
    orderBy: { id: "desc" },
  });
  const now = booking.state === "held" ? `it is ${whenText(booking.startsAt, place)}` : `it is ${booking.state}`;
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

const told = (fitted: { startsAt: Date; endsAt: Date; bayId: number; staffId: number }, job: number) => ({
  job,
  startsAt: fitted.startsAt.toISOString(),
  endsAt: fitted.endsAt.toISOString(),
  bayId: fitted.bayId,
  staffId: fitted.staffId,
});

async function tell(
  tx: ShopTx,
  shop: ShopHandle,
  place: Place,
  news: Parameters<typeof bookingMail>[0],
  job: JobOf,
  booking: Parameters<typeof bookingMail>[2],
): Promise<void> {
  if (!job.customer.email) return;
  const { make, model } = job.bike.modelCard;
  const bike = [make, model, job.bike.plate].filter(Boolean).join(" ");
  const mail = bookingMail(news, { ...job, bike, customer: job.customer.name }, booking, place);
  await tx.mail.create({ data: { to: job.customer.email, ...mail, createdAt: shop.now }, select: { id: true } });
}
