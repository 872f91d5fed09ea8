import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";

/** Why a mail of a copy does not go by itself: shown with it. */
const HELD_BACK = "The shop that this one was copied from sends it. It goes from here only if you send it.";

/** What was quietened in a shop that was opened from another one's records. */
export interface Quietened {
  readonly mails: number;
  readonly links: number;
  readonly calendars: number;
  /** The rounds wrote letters by themselves, and do so no more. */
  readonly letters: boolean;
}

const LETTERS_OF_ROUNDS = ["dayBefore", "howRuns"];

/**
 * Keeps a copy from speaking to people whom the shop it was copied from speaks to: mails that wait are held back, links and calendar
 * addresses of the other shop open nothing here, and no letter is written unasked until the owner turns that on again.
 */
export async function quietCopy(shop: ShopHandle): Promise<Quietened> {
  return shop.write(async (tx) => {
    const mails = await tx.mail.updateMany({
      where: { state: { in: ["waiting", "sending"] } },
      data: { state: "held", failure: HELD_BACK, nextAt: null, heldUntil: null },
    });
    const links = await tx.customerLink.updateMany({
      where: { revokedAt: null },
      data: { revokedAt: shop.now },
    });
    const feeds = await tx.calendarFeed.deleteMany({});
    const whole = await tx.shopCalendar.deleteMany({});
    const quotes = await tx.settings.updateMany({
      where: { OR: [{ remindAfterDays: { not: null } }, { remindBeforeDays: { not: null } }] },
      data: { remindAfterDays: null, remindBeforeDays: null, version: { increment: 1 } },
    });
    const letters = await tx.letter.updateMany({
      where: { kind: { in: LETTERS_OF_ROUNDS }, on: true },
      data: { on: false, version: { increment: 1 } },
    });
    const reminders = await tx.reminderTerms.updateMany({
      where: { OR: [{ automatic1: true }, { automatic2: true }, { automatic3: true }] },
      data: { automatic1: false, automatic2: false, automatic3: false, version: { increment: 1 } },
    });
    const quiet = {
      mails: mails.count,
      links: links.count,
      calendars: feeds.count + whole.count,
      letters: quotes.count + letters.count + reminders.count > 0,
    };
    await audit(tx, shop, "was opened as a copy", "shop", null, quiet);
    return quiet;
  });
}
