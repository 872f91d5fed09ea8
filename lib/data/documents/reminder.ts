import { z } from "zod";
import type { ReminderPaper } from "@/lib/domain/chasing/reminderPaper";
import { day, text, whole } from "./pieces";
import { ask, buyer, seller } from "./statement";
import { readVersion, type Versions } from "./versions";

/** A reminder as it was written. */
export interface FrozenReminder extends ReminderPaper {
  readonly format: "throttlewright-reminder";
  readonly version: 1;
}

const Version1 = z.looseObject({
  format: z.literal("throttlewright-reminder"),
  version: z.literal(1),
  level: whole,
  day,
  invoice: z.looseObject({
    written: text,
    issuedOn: day,
    dueOn: day,
    grossMinor: whole,
    creditedMinor: whole,
    paidMinor: whole,
    leftMinor: whole,
    purpose: text,
  }),
  fees: z.array(z.looseObject({ level: whole, onDay: day, minor: whole })),
  words: text,
  ask,
  seller,
  buyer,
  locale: text,
  country: text,
  currency: text,
}) satisfies z.ZodType<FrozenReminder>;

const REMINDERS: Versions<FrozenReminder> = {
  format: "throttlewright-reminder",
  what: "a frozen reminder",
  readers: { 1: Version1 },
};

/** A reminder out of the database. */
export function storedReminder(json: unknown): FrozenReminder {
  return readVersion(REMINDERS, json);
}
