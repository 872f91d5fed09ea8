import { earliest } from "@/lib/db/due";
import { once } from "@/lib/db/once";
import type { ShopHandle } from "@/lib/db/shop";
import { dayIn, daysAfter, endOfDay } from "@/lib/domain/schedule/days";
import { mailTimeFrom } from "@/lib/domain/schedule/reminder";
import { letterChoice } from "../mail/letters";
import { formatsOf } from "./facts";
import { subjectOf, tell } from "./subject";

/** So much in one round; what is left waits for the next. */
const MOST = 50;
/** A bike is brought no longer before its work starts (judgement, in days). */
const FURTHEST = 60;

/**
 * Writes to those whose bike is to be brought tomorrow, where the shop wants that: once for each booking and day, and not
 * to somebody who was written to about it today. Safe to repeat and to run in several processes at once.
 */
export async function dayBeforeRound(shop: ShopHandle, zone: string): Promise<number> {
  if (!(await letterChoice(shop.read, "dayBefore")).on) return 0;
  const today = dayIn(zone, shop.now);
  const begins = endOfDay(daysAfter(today, -1), zone);
  const tomorrow = { gte: endOfDay(today, zone), lt: endOfDay(daysAfter(today, 1), zone) };
  const rows = await shop.read.booking.findMany({
    where: {
      state: "held",
      arrivedAt: null,
      startsAt: { gte: tomorrow.gte, lt: endOfDay(daysAfter(today, FURTHEST), zone) },
      AND: [
        { OR: [{ dropOffAt: tomorrow }, { dropOffAt: null, startsAt: tomorrow }] },
        { OR: [{ jobId: null }, { job: { arrivedAt: null } }] },
      ],
    },
    select: { id: true, version: true },
    orderBy: { id: "asc" },
    take: MOST * 4,
  });
  let told = 0;
  for (const { id, version } of rows) {
    if (told >= MOST) break;
    told += await shop.write(async (tx) => {
      const booking = await tx.booking.findFirst({ where: { id, version, state: "held" } });
      const today = await tx.mail.findFirst({
        where: { noun: "booking", nounId: id, createdAt: { gte: begins } },
        select: { id: true },
        orderBy: { id: "asc" },
      });
      if (!booking || today) return 0;
      const key = `day-before-${id}-${tomorrow.gte.toISOString()}`;
      return once(tx, shop, "wrote the day before", { key, id }, async () => {
        const formats = await formatsOf(tx);
        const written = await tell(tx, shop, formats, "dayBefore", await subjectOf(tx, booking), booking);
        return "mailId" in written ? 1 : 0;
      });
    });
  }
  return told;
}

/**
 * When the first bike after tomorrow's is to be written about, once today's have been: on the day before it is brought. Null where
 * none is expected, or the shop does not want it. `written`: how many the round wrote.
 */
export async function nextDayBefore(shop: ShopHandle, zone: string, written: number): Promise<Date | null> {
  if (!(await letterChoice(shop.read, "dayBefore")).on) return null;
  if (written >= MOST) return shop.now;
  const from = endOfDay(daysAfter(dayIn(zone, shop.now), 1), zone);
  const expected = { state: "held", arrivedAt: null } as const;
  const [dropped, begun] = [
    await shop.read.booking.findFirst({
      where: { ...expected, dropOffAt: { gte: from } },
      select: { dropOffAt: true },
      orderBy: { dropOffAt: "asc" },
    }),
    await shop.read.booking.findFirst({
      where: { ...expected, dropOffAt: null, startsAt: { gte: from } },
      select: { startsAt: true },
      orderBy: { startsAt: "asc" },
    }),
  ];
  const brought = earliest([dropped?.dropOffAt ?? null, begun?.startsAt ?? null]);
  if (!brought) return null;
  const dayBefore = endOfDay(daysAfter(dayIn(zone, brought), -2), zone);
  return new Date(mailTimeFrom(dayBefore.getTime(), zone));
}
