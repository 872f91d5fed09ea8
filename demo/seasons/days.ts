import type { Calendar } from "../calendar";
import type { Chance } from "../work/chance";

/** How busy a month is against others, January first. */
export type Season = readonly number[];

/**
 * So many working days between two, both counted from today, in their order: more of them in the months that are busy. A day may come
 * more than once.
 */
export function busyDays(
  calendar: Calendar,
  chance: Chance,
  season: Season,
  { from, to, count }: { from: number; to: number; count: number },
): number[] {
  const days = Array.from({ length: to - from + 1 }, (_, at) => from + at);
  const weights = days.map((day) => season[Number(calendar.day(day).slice(5, 7)) - 1] ?? 1);
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  let [at, below] = [0, weights[0] ?? 0];
  return Array.from({ length: count }, (_, one) => {
    const wanted = ((one + chance.share()) / count) * whole;
    while (at < days.length - 1 && below <= wanted) below += weights[++at] ?? 0;
    return days[at] ?? to;
  });
}
