import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { firstTimes } from "@/lib/domain/schedule/firstTimes";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { LONGEST_SPAN_MS, spanOf, type WorkingTime, workingIntervals } from "@/lib/domain/schedule/working";
import { bookedFor, FOR } from "./bookedFor";
import { type Formats, workingTimeOf } from "./facts";
import { timeText, whenText } from "./words";

/** Where and when a job is wanted to be done. */
export interface Wanted {
  bayId: number;
  staffId: number;
  startsAt: Date;
  dropOffAt?: Date | null | undefined;
  pickUpAt?: Date | null | undefined;
  /** So many milliseconds after the work's end, in place of a moment. */
  pickUpAfter?: number | undefined;
  note?: string | undefined;
  /** Working minutes; the job's remaining minutes when left out. */
  minutes?: number | undefined;
}

/** Where a wish falls: its end over working time, after everything that could be in the way was looked at. */
export async function fitIn(
  tx: ShopTx,
  shop: ShopHandle,
  formats: Formats,
  wanted: Wanted,
  minutes: number,
  self: number | null,
) {
  const { bayId, staffId, startsAt } = wanted;
  const bay = await tx.bay.findUnique({ where: { id: bayId }, select: { name: true, active: true } });
  if (!bay?.active)
    throw new Refusal("This bay is not in use.", "Choose another bay.", { bayId: "Choose another bay." });
  const working = await workingTimeOf(tx, staffId, formats.zone, dayOf(startsAt.getTime(), formats.zone));
  demandWorking(startsAt, working, formats);
  const endsAt = new Date(spanOf(startsAt.getTime(), minutes, working));
  if (endsAt <= shop.now)
    throw new Refusal("This time is over already.", "Choose a time that is still to come.", {
      day: "It is over.",
    });
  await demandFree(
    tx,
    formats,
    { bayId, staffId, startsAt, endsAt },
    { bay: bay.name, person: working.name },
    self,
    () => nextFreeIn(tx, { bayId, staffId, startsAt }, working, minutes, self),
  );
  const dropOffAt = wanted.dropOffAt ?? null;
  const pickUpAt =
    wanted.pickUpAfter === undefined
      ? (wanted.pickUpAt ?? null)
      : new Date(endsAt.getTime() + wanted.pickUpAfter);
  if (dropOffAt && dropOffAt > startsAt)
    throw new Refusal("The bike would come after the work starts.", "Let it come earlier, or start later.", {
      dropOff: `Work starts ${whenText(startsAt, formats)}.`,
    });
  if (pickUpAt && pickUpAt < endsAt)
    throw new Refusal("The bike would be fetched before the work ends.", "Let it be fetched later.", {
      pickUp: `Work ends ${whenText(endsAt, formats)}.`,
    });
  return { bayId, staffId, startsAt, endsAt, dropOffAt, pickUpAt, note: wanted.note ?? "" };
}

function demandWorking(startsAt: Date, working: WorkingTime & { name: string }, formats: Formats): void {
  const at = startsAt.getTime();
  const { hours, closures, absences, zone } = working;
  const shift = workingIntervals(at, at + 60_000, hours, closures, absences, zone)[0];
  if (shift?.startsAt === at) return;
  const next = workingIntervals(at, at + 35 * 86_400_000, hours, closures, absences, zone)[0];
  throw new Refusal(
    `${working.name} does not work ${whenText(startsAt, formats)}.`,
    next ? `The next time is ${whenText(next.startsAt, formats)}.` : "Choose someone else, or another day.",
    { time: next ? `From ${whenText(next.startsAt, formats)}.` : "Not a working time." },
  );
}

interface Stretch {
  readonly bayId: number;
  readonly staffId: number;
  readonly startsAt: Date;
  readonly endsAt: Date;
}

/** The first booking that holds the bay or the person of a stretch; null where both are free. */
export async function inTheWayOf(tx: ShopTx, wanted: Stretch, self: number | null) {
  return tx.booking.findFirst({
    where: {
      state: "held",
      // Between two ends, or every booking before would be looked at.
      startsAt: { gt: new Date(wanted.startsAt.getTime() - LONGEST_SPAN_MS), lt: wanted.endsAt },
      endsAt: { gt: wanted.startsAt },
      OR: [{ bayId: wanted.bayId }, { staffId: wanted.staffId }],
      ...(self === null ? {} : { id: { not: self } }),
    },
    select: { bayId: true, startsAt: true, endsAt: true, ...FOR },
    orderBy: { startsAt: "asc" },
  });
}
type InTheWay = NonNullable<Awaited<ReturnType<typeof inTheWayOf>>>;

/** What is booked there, in words: "job 635", "the bike of Halvard Moe". */
function whatOf(inTheWay: InTheWay): string {
  const { name, customer } = bookedFor(inTheWay);
  return inTheWay.job ? name.toLowerCase() : `the bike of ${customer}`;
}

/** The same with its time: "job 635 from Monday 30 November, 08:00 to 12:00". */
export function takenText(inTheWay: InTheWay, formats: Formats): string {
  const { startsAt, endsAt } = inTheWay;
  const sameDay = dayOf(startsAt.getTime(), formats.zone) === dayOf(endsAt.getTime(), formats.zone);
  const until = sameDay ? timeText(endsAt, formats.zone) : whenText(endsAt, formats);
  return `${whatOf(inTheWay)} from ${whenText(startsAt, formats)} to ${until}`;
}

async function demandFree(
  tx: ShopTx,
  formats: Formats,
  wanted: Stretch,
  names: { bay: string; person: string },
  self: number | null,
  nextFree: () => Promise<number | null>,
): Promise<void> {
  const inTheWay = await inTheWayOf(tx, wanted, self);
  if (!inTheWay) return;
  const bayTaken = inTheWay.bayId === wanted.bayId;
  const what = whatOf(inTheWay);
  const field = bayTaken ? "bayId" : "staffId";
  const next = await nextFree();
  const free = next === null ? "" : `Next free ${whenText(next, formats)}. `;
  throw new Refusal(
    `${bayTaken ? names.bay : names.person} has ${takenText(inTheWay, formats)}.`,
    `${free}Choose another time, another ${bayTaken ? "bay" : "person"}, or move ${what} first.`,
    { [field]: `Taken by ${what}.` },
    "conflict",
  );
}

/** When a bay and a person are next free together for so many minutes; null where they are not in the next 90 days. */
async function nextFreeIn(
  tx: ShopTx,
  { bayId, staffId, startsAt }: Omit<Stretch, "endsAt">,
  working: WorkingTime,
  minutes: number,
  self: number | null,
): Promise<number | null> {
  const taken = await tx.booking.findMany({
    where: {
      state: "held",
      endsAt: { gt: startsAt },
      OR: [{ bayId }, { staffId }],
      ...(self === null ? {} : { id: { not: self } }),
    },
    select: { bayId: true, staffId: true, startsAt: true, endsAt: true },
    orderBy: { startsAt: "asc" },
    take: 400,
  });
  const { hours, absences, closures, zone } = working;
  const [slot] = firstTimes({
    minutes,
    bays: [{ id: bayId, name: "" }],
    people: [{ id: staffId, name: "", hours, absences }],
    bookings: taken.map((one) => ({
      ...one,
      startsAt: one.startsAt.getTime(),
      endsAt: one.endsAt.getTime(),
    })),
    closures,
    notBefore: startsAt.getTime(),
    zone,
    count: 1,
  });
  return slot?.startsAt ?? null;
}
