import { dayAfter } from "../schedule/localTime";

/** Days that can be closed, oldest first, and from which day on each would count: all after the last one that was closed. */
export interface OpenDays {
  readonly days: readonly string[];
  /** The first day that no end of day covers; null where none was closed yet: then a day begins with itself. */
  readonly fromDay: string | null;
}

/**
 * The days to close: every one after `last` (the newest closed day, null for none) up to today that saw money, and today itself.
 * Before a shop closes its first day only today is asked for. `moneyDays` in any order, "YYYY-MM-DD".
 */
export function openDays(last: string | null, moneyDays: readonly string[], today: string): OpenDays {
  if (last === null) return { days: [today], fromDay: null };
  const between = moneyDays.filter((day) => day > last && day < today);
  const days = [...new Set([...between, ...(today > last ? [today] : [])])].sort();
  return { days, fromDay: dayAfter(last) };
}
