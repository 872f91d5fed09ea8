import type { Interval } from "./intervals";
import type { DaysOff, WeeklyHours } from "./working";

export interface Person {
  readonly id: number;
  readonly name: string;
  readonly hours: WeeklyHours;
  readonly absences: readonly DaysOff[];
}

export interface Booked extends Interval {
  readonly bayId: number;
  readonly staffId: number;
}

/** Something that must have happened first, such as parts arriving. */
export interface Awaited {
  readonly what: string;
  /** Epoch milliseconds. */
  readonly at: number;
}

export interface Asked {
  readonly minutes: number;
  readonly bays: readonly { readonly id: number; readonly name: string }[];
  readonly people: readonly Person[];
  readonly bookings: readonly Booked[];
  readonly closures: readonly DaysOff[];
  readonly notBefore: number;
  readonly awaited?: readonly Awaited[];
  readonly zone: string;
  /** Weekdays of the zone, 1 (Monday) to 7, on which nothing starts. */
  readonly notOn?: readonly number[];
  readonly count: number;
  /** How far ahead to look; 90 days when left out. */
  readonly horizonDays?: number;
  /** Starts fall on multiples of this; 15 minutes when left out. */
  readonly gridMinutes?: number;
}

export interface Wait {
  readonly kind: "awaited" | "bay" | "person" | "hours";
  readonly what: string;
  /** Epoch milliseconds. */
  readonly until: number;
}

/** A bay and a person for the whole stretch, nights included. */
export interface Slot extends Interval {
  readonly bayId: number;
  readonly staffId: number;
  /** What keeps it from being earlier; empty for a slot that starts at once. */
  readonly waitsFor: readonly Wait[];
}
