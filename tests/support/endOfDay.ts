import { type CloseDay, closeDay } from "@/lib/data/endOfDay/close";
import { getOpenDay, type OpenDay } from "@/lib/data/endOfDay/open";
import type { ShopHandle } from "@/lib/db/shop";

/** The oldest open day, or another one; it must be there. */
export async function dayToClose(shop: ShopHandle, day?: string): Promise<OpenDay> {
  const open = await getOpenDay(shop, day);
  if (!open) throw new Error("No day is open.");
  return open;
}

/** Counts a day's drawer so that it is right, or otherwise as said, and closes it. Answers its id. */
export async function closed(
  shop: ShopHandle,
  more: Partial<CloseDay> & { day?: string } = {},
): Promise<number> {
  const open = await dayToClose(shop, more.day);
  const floatMinor = more.floatMinor ?? 0;
  return closeDay(shop, {
    day: open.day,
    seen: open.seen,
    floatMinor,
    pieces: [],
    sumMinor: open.expectedMinor + (open.floatMinor === null ? floatMinor : 0),
    leftMinor: null,
    reason: "",
    terminalMinor: null,
    terminalReason: "",
    ...more,
  });
}
