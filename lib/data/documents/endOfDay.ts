import { z } from "zod";
import type { PrintedDay } from "@/lib/domain/endOfDay/printed";
import { day, text, whole } from "./pieces";
import { readVersion, type Versions } from "./versions";

/** The end of a day as it is kept: all that its sheet prints, unchanged for good. */
export interface FrozenDay extends PrintedDay {
  readonly format: "throttlewright-end-of-day";
  readonly version: 1;
}

export function frozenDayOf(printed: PrintedDay): FrozenDay {
  return { format: "throttlewright-end-of-day", version: 1, ...printed };
}

const compared = z.looseObject({
  expectedMinor: whole,
  countedMinor: whole,
  differenceMinor: whole,
  reason: text,
});

const takings = z.looseObject({
  method: text,
  count: whole,
  soldMinor: whole,
  returnedMinor: whole,
  paidMinor: whole,
  givenBackMinor: whole,
  bouncedMinor: whole,
  netMinor: whole,
  roundingMinor: whole,
});

const seller = z.looseObject({
  name: text,
  legalName: text,
  taxNumber: text,
  numberName: text,
  numberMarks: z.array(text).exactOptional(),
  address: text,
  phone: text,
  email: text,
  bankDetails: text,
});

const taking = z.looseObject({
  id: whole,
  at: text,
  paidOn: day,
  kind: z.enum(["deposit", "payment", "refund", "writeOff", "bounced", "overpayment"]),
  method: text,
  movedMinor: whole,
  roundingMinor: whole,
  document: z.looseObject({ kind: z.enum(["invoice", "creditNote", "receipt"]), written: text }).nullable(),
  job: text.nullable(),
});

const Version1 = z.looseObject({
  format: z.literal("throttlewright-end-of-day"),
  version: z.literal(1),
  day,
  fromDay: day,
  closedAt: text,
  zone: text,
  closedBy: text,
  seller,
  country: text,
  locale: text,
  currency: text,
  takings: z.array(takings),
  floatMinor: whole,
  moves: z.array(z.looseObject({ day, amountMinor: whole, reason: text, by: text })),
  drawer: compared,
  pieces: z.array(z.looseObject({ valueMinor: whole, pieces: whole })),
  leftMinor: whole,
  takenMinor: whole,
  terminal: compared.nullable(),
  payments: z.array(taking),
}) satisfies z.ZodType<FrozenDay>;

const DAYS: Versions<FrozenDay> = {
  format: "throttlewright-end-of-day",
  what: "an end of day",
  readers: { 1: Version1 },
};

/** A stored end of day. */
export const storedDay = (frozen: unknown): FrozenDay => readVersion(DAYS, frozen);
