import type { ShopHandle } from "@/lib/db/shop";
import { mondayOf, type WeekHours, weekHours } from "@/lib/domain/labour/hours";
import { dayAfter, dayOf, instantOf } from "@/lib/domain/schedule/localTime";
import { zoneIn } from "../common/zone";
import { staffNames } from "../jobs/people";

export interface PersonWeek extends WeekHours {
  readonly name: string;
  /** The first and the last local day of the week. */
  readonly from: string;
  readonly to: string;
}

const STRETCH = { staffId: true, startedAt: true, endedAt: true } as const;
/** Rows of one week: eight people who switch every minute have fewer. */
const MOST = 20_000;

/** The hours of everybody in the week of a local day, or of one person; people by name. */
export async function hoursOfWeek(shop: ShopHandle, day: string, staffId?: number): Promise<PersonWeek[]> {
  const zone = await zoneIn(shop.read);
  const from = mondayOf(day);
  const to = dayAfter(from, 6);
  const begins = new Date(instantOf(from, "00:00", zone));
  const where = {
    startedAt: { lt: new Date(instantOf(to, "24:00", zone)) },
    OR: [{ endedAt: null }, { endedAt: { gt: begins } }],
    ...(staffId === undefined ? {} : { staffId }),
  };
  const [entries, breaks, names] = await Promise.all([
    shop.read.timeEntry.findMany({ where, select: STRETCH, orderBy: { id: "asc" }, take: MOST }),
    shop.read.timeBreak.findMany({ where, select: STRETCH, orderBy: { id: "asc" }, take: MOST }),
    staffNames(shop),
  ]);
  return weekHours(from, zone, entries.map(ms), breaks.map(ms), shop.now.getTime())
    .map((week) => ({ ...week, name: names.get(week.staffId) ?? "", from, to }))
    .sort((a, b) => a.name.localeCompare(b.name) || a.staffId - b.staffId);
}

const ms = ({ staffId, startedAt, endedAt }: { staffId: number; startedAt: Date; endedAt: Date | null }) => ({
  staffId,
  startedAt: startedAt.getTime(),
  endedAt: endedAt?.getTime() ?? null,
});

/** Longest stretch of one file, in weeks: a year of wages. */
const MOST_WEEKS = 54;

/** The weeks from one local day to another, each with everybody's hours: this week where no days are named. */
export async function* weeksOfHours(
  shop: ShopHandle,
  days: { readonly from?: string | undefined; readonly to?: string | undefined },
): AsyncGenerator<PersonWeek, void, undefined> {
  const today = dayOf(shop.now.getTime(), await zoneIn(shop.read));
  const last = days.to ?? today;
  let monday = mondayOf(days.from ?? last);
  for (let weeks = 0; monday <= last && weeks < MOST_WEEKS; weeks += 1) {
    yield* await hoursOfWeek(shop, monday);
    monday = dayAfter(monday, 7);
  }
}
