import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, daysAfter, endOfDay } from "@/lib/domain/schedule/days";
import { mailTimeFrom } from "@/lib/domain/schedule/reminder";
import { dueReminders } from "./due";
import { remindIn, remindOfPayment } from "./remind";
import { reminderTerms } from "./terms";

/** So many reminders in one go; what is left waits for the next. */
const MOST_AT_ONCE = 50;
/** So many days past its day a reminder is no longer a matter for a machine's letter (judgement). */
const TOO_LATE = 60;

/** True where the shop lets the rounds write a reminder. */
export async function wantsReminders({ read }: Pick<ShopHandle, "read">): Promise<boolean> {
  return (await reminderTerms(read)).levels.some((one) => one.automatic);
}

/**
 * Reminds of what is late where the shop has turned that on, each reminder once. What is due is looked for outside a transaction, and
 * decided anew inside each one: safe to repeat, to be cut off, and to run in several processes at once.
 */
export async function reminderRound(shop: ShopHandle, origin: string): Promise<number> {
  if (!(await wantsReminders(shop))) return 0;
  const { due } = await dueReminders(shop.read, shop.now);
  const wanted = due.filter(
    ({ next, lateDays, withheld }) => next.automatic && withheld === null && lateDays <= next.days + TOO_LATE,
  );
  let written = 0;
  for (const one of wanted.slice(0, MOST_AT_ONCE))
    written += await shop.write(async (tx) => {
      const made = await orRefused(() =>
        remindIn(tx, shop, { id: one.id, level: one.next.level, words: "", origin, automatic: true }),
      );
      return made && "mailId" in made.written ? 1 : 0;
    });
  return written;
}

/**
 * When an invoice may be reminded of by the rounds: on the day its first reminder is due, and from then on each morning while it is
 * open, since stops end and further reminders fall due by the day. Null where the shop does not want it, or nothing is owed.
 */
export async function nextReminderRound(
  shop: ShopHandle,
  zone: string,
  written: number,
): Promise<Date | null> {
  const { levels } = await reminderTerms(shop.read);
  if (!levels.some((one) => one.automatic)) return null;
  if (written >= MOST_AT_ONCE) return shop.now;
  const oldest = await shop.read.invoice.findFirst({
    where: {
      kind: "invoice",
      state: "issued",
      saleId: null,
      takenBack: false,
      dueOn: { not: null },
      job: { state: "invoiced" },
    },
    select: { dueOn: true },
    orderBy: { dueOn: "asc" },
  });
  if (!oldest?.dueOn) return null;
  const first = Math.min(...levels.flatMap(({ days }) => (days === null ? [] : [days])));
  const today = dayIn(zone, shop.now);
  const [, day = today] = [daysAfter(today, 1), daysAfter(oldest.dueOn, first)].sort();
  return new Date(mailTimeFrom(endOfDay(daysAfter(day, -1), zone).getTime(), zone));
}

/** Sends the reminders that somebody has looked at, each once for its level: what cannot be sent any more is left out and told. */
export async function sendReminders(
  shop: ShopHandle,
  input: {
    readonly reminders: readonly { readonly id: number; readonly level: number }[];
    readonly origin: string;
  },
): Promise<{ readonly sent: number; readonly left: readonly string[] }> {
  let sent = 0;
  const left: string[] = [];
  for (const { id, level } of input.reminders.slice(0, MOST_AT_ONCE)) {
    try {
      await remindOfPayment(shop, { id, level, words: "", origin: input.origin });
      sent++;
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
      left.push(cause.message);
    }
  }
  return { sent, left };
}

async function orRefused<T>(run: () => Promise<T>): Promise<T | null> {
  try {
    return await run();
  } catch (cause) {
    // It was paid, stopped or sent since it was looked for.
    if (!(cause instanceof Refusal)) throw cause;
    return null;
  }
}
