import { Refusal } from "../refusal";

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/u;

/** A calendar day as "YYYY-MM-DD"; null where no calendar has it. Browsers reckon with days too, so no library is needed for it. */
export function calendarDay(year: number, month: number, day: number): string | null {
  const at = new Date(0);
  at.setUTCFullYear(year, month - 1, day);
  if (at.getUTCFullYear() !== year || at.getUTCMonth() !== month - 1 || at.getUTCDate() !== day) return null;
  return at.toISOString().slice(0, 10);
}

/** The day some days later, or earlier for a number below nothing. Throws Refusal for what is no day. */
export function dayAfter(day: string, days = 1): string {
  const [, year, month, date] = (DAY.exec(day) ?? []).map(Number);
  if (year === undefined || month === undefined || date === undefined || !calendarDay(year, month, date))
    throw new Refusal(`“${day}” is no day.`, "Enter a day as year-month-day, such as 2026-03-29.");
  const at = new Date(0);
  at.setUTCFullYear(year, month - 1, date + days);
  return at.toISOString().slice(0, 10);
}
