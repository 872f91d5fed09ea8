import { Temporal } from "temporal-polyfill";

/** How long something is past due, from what is not due yet to what is over 90 days late. */
export const AGES = ["notDue", "to30", "to60", "to90", "over90"] as const;
export type Age = (typeof AGES)[number];

/** Whole days from the day it was due ("YYYY-MM-DD") to a day; 0 or below where it is not past due, or has no such day. */
export const daysPast = (dueOn: string | null, day: string): number =>
  dueOn === null ? 0 : Temporal.PlainDate.from(dueOn).until(Temporal.PlainDate.from(day)).days;

/**
 * The column of an aged list that an amount stands in on a day: what is due that day is not past due; then 1 to 30, 31 to 60,
 * 61 to 90 and over 90 days. Common practice, no source.
 */
export function ageOf(dueOn: string | null, day: string): Age {
  const days = daysPast(dueOn, day);
  if (days <= 0) return "notDue";
  if (days <= 30) return "to30";
  if (days <= 60) return "to60";
  return days <= 90 ? "to90" : "over90";
}
