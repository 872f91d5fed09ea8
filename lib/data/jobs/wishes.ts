import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { type BookingWish, type WishFields, wishOf } from "@/lib/schemas/wishes";

/** Nobody knows their diary further than this. Judgement. */
const MOST_DAYS = 365;

const NO_WISH: WishFields = { wishWhen: "", wishFrom: "", wishNot: [], wishNote: "" };

/** What was said of when, checked against the shop's day; null where nothing was said. */
export function demandWish(given: Partial<WishFields>, today: string): BookingWish | null {
  const found = wishOf({ ...NO_WISH, ...given });
  if ("problem" in found) throw refusedDay(found.problem);
  const { wish } = found;
  if (wish?.fromDay && wish.fromDay < today)
    throw refusedDay("This day is over: enter today or a later day.");
  if (wish?.fromDay && wish.fromDay > dayAfter(today, MOST_DAYS))
    throw refusedDay("Enter a day within a year from now.");
  return wish;
}

const refusedDay = (problem: string) =>
  new Refusal("The day cannot be taken as it is.", "Correct it, or leave it empty.", { wishFrom: problem });

/** Keeps a wish with the yes that it was said with. */
export async function keepWish(
  tx: ShopTx,
  shop: ShopHandle,
  of: { jobId: number; revisionId: number },
  { fromDay, notDays, note }: BookingWish,
): Promise<void> {
  await tx.bookingWish.create({
    data: { ...of, fromDay, notDays: [...notDays], note, createdAt: shop.now },
    select: { id: true },
  });
}

/** The newest wish of each of some jobs. */
export async function wishesOf(
  shop: Pick<ShopHandle, "read">,
  jobIds: readonly number[],
): Promise<Map<number, BookingWish>> {
  if (jobIds.length === 0) return new Map();
  const rows = await shop.read.bookingWish.findMany({
    where: { jobId: { in: [...jobIds] } },
    select: { jobId: true, fromDay: true, notDays: true, note: true },
    orderBy: { id: "asc" },
    take: 10 * jobIds.length,
  });
  return new Map(
    rows.map(({ jobId, notDays, ...wish }) => [
      jobId,
      { ...wish, notDays: Array.isArray(notDays) ? notDays.filter((d) => typeof d === "number") : [] },
    ]),
  );
}

/** The newest wish of a job; null where none was said. */
export async function wishOfJob(shop: Pick<ShopHandle, "read">, jobId: number): Promise<BookingWish | null> {
  return (await wishesOf(shop, [jobId])).get(jobId) ?? null;
}
