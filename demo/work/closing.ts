import { closeDay } from "@/lib/data/endOfDay/close";
import { getOpenDay } from "@/lib/data/endOfDay/open";
import { denominationsOf } from "@/lib/domain/endOfDay/denominations";
import type { Pieces } from "@/lib/domain/endOfDay/drawer";
import type { Stage } from "../stage";

const FLOAT_MINOR = 20_000;

/** The drawer counted coin by coin in the evening; `offMinor` is by how much it was not what it should be. */
export async function closeDrawer(stage: Stage, when: Date, offMinor = 0, reason = ""): Promise<void> {
  const shop = stage.shop.as(stage.hands.desk, when);
  const open = await getOpenDay(shop, stage.calendar.dayOf(when));
  if (!open) throw new Error("There is no day to close.");
  const floatMinor = open.floatMinor ?? FLOAT_MINOR;
  const lies = open.expectedMinor + (open.floatMinor === null ? floatMinor : 0) + offMinor;
  await closeDay(shop, {
    day: open.day,
    seen: open.seen,
    floatMinor,
    pieces: laidOut(lies, denominationsOf(open.currency)?.valuesMinor ?? []),
    sumMinor: null,
    leftMinor: null,
    reason,
    terminalMinor: open.cardMinor,
    terminalReason: "",
  });
}

/** An amount in as few coins and notes as it takes. */
function laidOut(minor: number, values: readonly number[]): Pieces[] {
  let left = minor;
  return values.map((valueMinor) => {
    const pieces = Math.floor(left / valueMinor);
    left -= pieces * valueMinor;
    return { valueMinor, pieces };
  });
}
