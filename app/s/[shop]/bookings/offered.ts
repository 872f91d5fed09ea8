import type { OfferedTime } from "@/lib/data/bookings/times";
import { timeText, whenText } from "@/lib/data/bookings/words";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { offeredValue } from "@/lib/schemas/bookings";

interface Clock {
  readonly zone: string;
  readonly locale: string;
}

/** What a time waits for, in words. */
function waits(time: OfferedTime, clock: Clock): string {
  const words = time.waitsFor.map((wait) => {
    const until = whenText(wait.until, clock);
    if (wait.kind === "awaited") return `waits for ${wait.what}, here ${until}`;
    if (wait.kind === "hours") return `${wait.what} starts work then`;
    return `${wait.what} is free from ${until}`;
  });
  return [`${time.bay}, ${time.person}`, ...words].join(" · ");
}

/** The first times that work as a form offers them. */
export function offered(times: readonly OfferedTime[], clock: Clock) {
  const { zone } = clock;
  const end = (time: OfferedTime) =>
    dayOf(time.startsAt, zone) === dayOf(time.endsAt, zone)
      ? timeText(time.endsAt, zone)
      : whenText(time.endsAt, clock);
  return times.map((time) => ({
    value: offeredValue(time),
    label: `${whenText(time.startsAt, clock)} to ${end(time)}`,
    detail: waits(time, clock),
  }));
}

/** Where a time of one's own begins to be chosen: at the first that works. */
export const ownStart = (at: number, zone: string) => ({ day: dayOf(at, zone), time: timeText(at, zone) });
