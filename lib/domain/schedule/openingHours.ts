import type { Weekday } from "./localTime";
import type { WeeklyHours } from "./working";

export interface OpenDay {
  /** Monday is 1. */
  readonly weekday: Weekday;
  /** In order, not touching; empty where nobody works. Times are "HH:MM" on the shop's clock. */
  readonly spans: readonly { readonly from: string; readonly to: string }[];
}

const WEEK: readonly Weekday[] = [1, 2, 3, 4, 5, 6, 7];

/** When somebody is there: the hours of several people laid over each other, day by day from Monday. Times compare as text. */
export function openingHours(people: readonly WeeklyHours[]): OpenDay[] {
  return WEEK.map((weekday) => {
    const all = people
      .flatMap((hours) => hours[weekday] ?? [])
      .toSorted((a, b) => (a.from < b.from ? -1 : 1));
    const spans: { from: string; to: string }[] = [];
    for (const { from, to } of all) {
      const last = spans.at(-1);
      if (last && from <= last.to) last.to = [last.to, to].toSorted().at(-1) ?? to;
      else spans.push({ from, to });
    }
    return { weekday, spans };
  });
}
