import type { ShopHandle } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import type { DayRange } from "@/lib/domain/schedule/ranges";
import { type FiguresAsked, rangesOf } from "@/lib/schemas/figures";

export interface Ranges {
  readonly range: DayRange;
  readonly before: DayRange;
  readonly today: string;
  readonly zone: string;
}

/** The days that figures are asked for, on the shop's clock and in its country's financial year. */
export async function rangesFor(
  shop: ShopHandle,
  asked: Pick<FiguresAsked, "range" | "from" | "to">,
): Promise<Ranges> {
  const { zone, country } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, country: true },
  });
  const today = dayIn(zone, shop.now);
  return { ...rangesOf(asked, today, country), today, zone };
}
