import { z } from "zod";
import { cursorId, formId } from "./ids";
import { oneLine } from "./oneLine";

const blank = (value: unknown) => (typeof value === "string" && value.trim() === "" ? undefined : value);
const id = (message: string) => z.preprocess(blank, formId(message));
const version = formId("Open the page again.");
const day = z.iso.date({ error: "Choose a day." });
const time = z.string({ error: "Enter a time." }).regex(/^\d\d:\d\d$/, "Enter a time such as 08:30.");
const localOrNothing = z.preprocess(
  blank,
  z
    .string()
    .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d/, "Enter a day and a time, or leave it empty.")
    .transform((text) => ({ day: text.slice(0, 10), time: text.slice(11, 16) }))
    .optional(),
);
const minutes = z.preprocess(
  blank,
  z.coerce
    .number({ error: "Enter whole minutes, or leave it as planned." })
    .int("Enter whole minutes.")
    .min(5, "At least 5 minutes.")
    .max(60_000, "At most 60 000 minutes.")
    .optional(),
);
const note = z.string().trim().max(500, "At most 500 letters.").optional().default("");

const PLACE = {
  day,
  time,
  bayId: id("Choose a bay."),
  staffId: id("Choose who does it."),
};
const AROUND = { dropOff: localOrNothing, pickUp: localOrNothing, note };

/** A time that was offered: its start, bay and person in one value. */
export const offeredValue = (slot: { startsAt: number; bayId: number; staffId: number }): string =>
  `${slot.startsAt}.${slot.bayId}.${slot.staffId}`;

const choice = z
  .string()
  .regex(/^\d+\.\d+\.\d+$/)
  .transform((text) => {
    const [startsAt, bayId, staffId] = text.split(".").map(Number) as [number, number, number];
    return { startsAt, bayId, staffId };
  });

/** Either one of the first times that work, or a time of one's own. */
const timed = <S extends z.ZodRawShape>(of: S) => {
  const Offered = z.object({ ...AROUND, ...of, choice });
  const OwnTime = z.object({ ...AROUND, ...of, ...PLACE, choice: z.literal("own") });
  return z.unknown().transform((given, context): z.output<typeof Offered> | z.output<typeof OwnTime> => {
    const own = (given as { choice?: unknown }).choice === "own";
    const hasChoice = typeof (given as { choice?: unknown }).choice === "string";
    const parsed = hasChoice ? (own ? OwnTime : Offered).safeParse(given) : null;
    if (parsed?.success) return parsed.data as z.output<typeof Offered> | z.output<typeof OwnTime>;
    if (!parsed) context.addIssue({ code: "custom", path: ["choice"], message: "Choose a time." });
    for (const issue of parsed?.error.issues ?? [])
      context.addIssue({ code: "custom", path: issue.path as string[], message: issue.message });
    return z.NEVER;
  });
};

export const BookSchema = timed({ jobId: id("Choose a job."), minutes });

const known = z.preprocess(blank, formId("Choose one from the list.").optional());
const WHOSE = {
  bikeId: known,
  customerId: known,
  guestName: oneLine(120, "Keep the name within 120 characters.").default(""),
  guestPhone: oneLine(40, "Keep the number within 40 characters.").default(""),
  words: oneLine(200, "Keep this within 200 characters.").pipe(
    z.string().min(3, "Say what the bike comes for."),
  ),
};

/** Whose bike is booked in before there is a job: a bike, a customer, or a name and a number. */
export const BookInSchema = timed({ ...WHOSE, minutes: z.coerce.number().int().min(5).max(60_000) }).refine(
  (given) => given.bikeId !== undefined || given.customerId !== undefined || given.guestName !== "",
  {
    path: ["guestName"],
    message: "Choose the bike or the customer, or write down who called.",
  },
);
export interface BookedInFor {
  readonly bikeId?: number | undefined;
  readonly customerId?: number | undefined;
  readonly guestName: string;
  readonly guestPhone: string;
  readonly words: string;
}

/** For how long a bike is to be booked in; an hour until somebody says. */
export const BookInQuerySchema = z.object({
  minutes: z.coerce.number().int().min(5).max(60_000).catch(60).default(60),
});

export const BookingToJobSchema = z.object({
  id: id("Choose a booking."),
  version,
  jobId: id("Choose the job."),
});

export const MoveBookingSchema = z.object({
  id: id("Choose a booking."),
  version,
  ...PLACE,
  ...AROUND,
  minutes,
});
export const CancelBookingSchema = z.object({
  id: id("Choose a booking."),
  version,
  why: oneLine(200, "At most 200 letters.").optional().default(""),
});
export const RestoreBookingSchema = z.object({ id: id("Choose a booking."), version });

export const SeenBookingSchema = z.object({ id: id("Choose a booking."), version });
export const ComesLaterSchema = SeenBookingSchema.extend({
  comes: localOrNothing.refine((at) => at !== undefined, "Enter the day and the time."),
});

/** A booking put to another place on the board of a day; what was not said there goes along. */
export const MoveOnBoardSchema = z.object({
  id: id("Choose a booking."),
  version,
  ...PLACE,
  minutes: z.coerce.number().int().min(5).max(60_000),
  seen: day,
});

/** The booking screen's place in the address bar. */
export const BookingsQuerySchema = z.object({
  day: day.optional().catch(undefined),
  bay: cursorId,
  person: cursorId,
});

export const BOOKING_WORDS = {
  held: { word: "booked", shape: "square" },
  done: { word: "done", shape: "filled" },
  cancelled: { word: "cancelled", shape: "dash" },
} as const;

/** A cancelled booking of which nobody brought the bike. */
export const DID_NOT_COME = { word: "did not come", shape: "dash" } as const;
