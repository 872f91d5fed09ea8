import type { ShopTx } from "@/lib/db/shop";
import type { NextReminder } from "@/lib/domain/chasing/nextReminder";
import { dayIn } from "@/lib/domain/schedule/days";
import { type Withheld, withheldFrom } from "../mail/letters";
import { chasedOn, firstReminders, LATE, lateOn } from "./late";
import { letterOfLevel } from "./reminderLetter";
import { reminderTerms } from "./terms";

type Reader = Pick<ShopTx, "invoice" | "mail" | "letter" | "reminderTerms" | "settings">;

/** So many late invoices are looked through for reminders that are due, the newest first. Judgement. */
export const MOST_LATE = 300;

export interface DueReminder {
  readonly id: number;
  readonly written: string;
  readonly customer: { readonly id: number; readonly name: string } | null;
  readonly dueOn: string;
  readonly lateDays: number;
  readonly leftMinor: number;
  readonly next: NextReminder;
  /** Why no letter would be written; null where one would. */
  readonly withheld: Withheld | null;
}

/** Reminders that are to be written on the shop's day, the oldest invoice first. `more`: there are more late invoices than are looked at. */
export async function dueReminders(
  db: Reader,
  now: Date,
  most = MOST_LATE,
): Promise<{ readonly due: readonly DueReminder[]; readonly more: boolean }> {
  const [{ zone }, terms] = await Promise.all([
    db.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } }),
    reminderTerms(db),
  ]);
  const today = dayIn(zone, now);
  const found = await db.invoice.findMany({
    where: lateOn(today),
    select: LATE,
    orderBy: { id: "desc" },
    take: most + 1,
  });
  const rows = found.slice(0, most).reverse();
  const first = await firstReminders(db, rows, zone);
  const due = rows.flatMap((row) => {
    const { against, next, lateDays, leftMinor } = chasedOn(row, terms, today, first.get(row.id) ?? null);
    return against || !next || next.fromDay > today ? [] : [{ row, next, lateDays, leftMinor }];
  });
  const withheld = await Promise.all(
    due.map(({ row, next }) =>
      withheldFrom(db, letterOfLevel(next.level), row.customer ?? { email: "", noLetters: false }),
    ),
  );
  return {
    due: due.map(({ row, ...one }, at) => ({
      ...one,
      id: row.id,
      written: row.written,
      customer: row.customer && { id: row.customer.id, name: row.customer.name },
      dueOn: row.dueOn ?? "",
      withheld: withheld[at] ?? null,
    })),
    more: found.length > most,
  };
}
