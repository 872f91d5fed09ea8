import { dayAfter, dayOf, instantOf, weekdayOf } from "@/lib/domain/schedule/localTime";
import { type DaysOff, type WeeklyHours, workingIntervals } from "@/lib/domain/schedule/working";

const FORTNIGHT = 14 * 86_400_000;

/** A stretch of work on the shop's clock: where it was broken off, and its end. */
export interface Worked {
  readonly breaks: readonly { readonly from: Date; readonly to: Date }[];
  readonly end: Date;
}

/** Working days counted from today: 0 is today, or the last working day before it where today is none. */
export class Calendar {
  private readonly found = new Map<number, string>();

  constructor(
    readonly zone: string,
    private readonly hours: WeeklyHours,
    private readonly closures: readonly DaysOff[],
    now: Date,
  ) {
    let day = dayOf(now.getTime(), zone);
    while (!this.works(day)) day = dayAfter(day, -1);
    this.found.set(0, day);
  }

  private works(day: string): boolean {
    const off = this.closures.some((days) => days.fromDay <= day && day <= days.toDay);
    return !off && (this.hours[weekdayOf(day)] ?? []).length > 0;
  }

  /** The working day `count` working days after today, or before it. */
  day(count: number): string {
    const known = this.found.get(count);
    if (known !== undefined) return known;
    const back = count < 0 ? -1 : 1;
    let day = dayAfter(this.day(count - back), back);
    while (!this.works(day)) day = dayAfter(day, back);
    this.found.set(count, day);
    return day;
  }

  /** A wall-clock time on a working day. */
  at(count: number, time: string): Date {
    return new Date(instantOf(this.day(count), time, this.zone));
  }

  dayOf(at: Date): string {
    return dayOf(at.getTime(), this.zone);
  }

  /** `count` days after a day, whether worked or not. */
  later(day: string, count: number): string {
    return dayAfter(day, count);
  }

  on(day: string, time: string): Date {
    return new Date(instantOf(day, time, this.zone));
  }

  /** True while the shop works. */
  open(at: Date): boolean {
    const [shift] = workingIntervals(
      at.getTime(),
      at.getTime() + 60_000,
      this.hours,
      this.closures,
      [],
      this.zone,
    );
    return shift?.startsAt === at.getTime();
  }

  /** Where so many minutes of work end that begin at a moment, broken off over lunch and night. */
  worked(from: Date, minutes: number): Worked {
    const start = from.getTime();
    const shifts = workingIntervals(start, start + FORTNIGHT, this.hours, this.closures, [], this.zone);
    const breaks: { from: Date; to: Date }[] = [];
    let left = minutes * 60_000;
    let last = start;
    for (const shift of shifts) {
      if (shift.startsAt > last) breaks.push({ from: new Date(last), to: new Date(shift.startsAt) });
      const room = shift.endsAt - shift.startsAt;
      if (left <= room) return { breaks, end: new Date(shift.startsAt + left) };
      left -= room;
      last = shift.endsAt;
    }
    throw new Error("More work than a fortnight holds.");
  }
}
