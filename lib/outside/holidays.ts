import Holidays from "date-holidays";

/** One whole day on which the public rests. */
export interface PublicHoliday {
  readonly day: string;
  readonly name: string;
}

export interface HolidayRegion {
  readonly code: string;
  readonly name: string;
}

/** The states or regions of a country that keep days of their own; none where all keep the same. */
export function holidayRegions(country: string): HolidayRegion[] {
  const states = new Holidays().getStates(country) as Record<string, string> | undefined;
  return Object.entries(states ?? {})
    .map(([code, name]) => ({ code, name }))
    .sort((a, b) => a.name.localeCompare(b.name));
}

/** The region a shop most likely lies in: the first that keeps its time zone; "" where none says so. */
export function regionOfZone(country: string, zone: string): string {
  const keeps = ({ code }: HolidayRegion) => new Holidays(country, code).getTimezones()?.includes(zone);
  return holidayRegions(country).find(keeps)?.code ?? "";
}

/**
 * Public holidays that last the whole day, from one day to another (YYYY-MM-DD, both included), in order. Half days are
 * left out: whether to close early is the shop's own choice. Source: the date-holidays tables, to be checked against the region's notice.
 */
export function publicHolidays(
  country: string,
  region: string,
  fromDay: string,
  toDay: string,
): PublicHoliday[] {
  const tables = region ? new Holidays(country, region) : new Holidays(country);
  const [first, last] = [Number(fromDay.slice(0, 4)), Number(toDay.slice(0, 4))];
  const found = new Map<string, string>();
  for (let year = first; year <= last; year++)
    for (const holiday of tables.getHolidays(year) ?? []) {
      const [day = "", time] = holiday.date.split(" ");
      const whole = holiday.type === "public" && time === "00:00:00";
      if (whole && day >= fromDay && day <= toDay && !found.has(day)) found.set(day, holiday.name);
    }
  return [...found].map(([day, name]) => ({ day, name })).sort((a, b) => a.day.localeCompare(b.day));
}
