import { z } from "zod";
import { cursorId, recordId } from "./ids";
import { modelCore } from "./modelCards";
import { longText, seenVersion, shortText, typedNumber } from "./typedNumber";

const details = {
  year: typedNumber({ name: "The year", low: 1900, high: 2100, whole: true }),
  plate: shortText(20, "The plate"),
  frameNumber: shortText(40, "The frame number"),
  colour: shortText(40, "The colour"),
  odometerKm: typedNumber({ name: "The odometer", low: 0, high: 2_000_000, unit: "km", whole: true }),
  complaint: longText(1000, "The complaint"),
  notes: longText(4000, "The notes"),
  /** Empty: the dry road. */
  severityId: z
    .string()
    .regex(/^\d{0,15}$/, "Choose one from the list.")
    .default("")
    .transform((typed) => (typed === "" ? null : Number(typed))),
};

/** A new bike on a model card the shop has. */
const OnCard = z.object({
  card: z.literal("known"),
  customerId: recordId,
  modelCardId: recordId,
  ...details,
});
/** A new bike of a model the shop has no card of: the smallest card is made with it. */
const OnNewCard = z.object({ card: z.literal("new"), customerId: recordId, ...modelCore, ...details });

export const NewBikeSchema = z.discriminatedUnion(
  "card",
  [OnCard, OnNewCard],
  "Choose a model card, or make a new one.",
);
export type NewBikeInput = z.output<typeof NewBikeSchema>;

/** An edit of a bike. Labels and markings come as `carburettors.<position>.{label,marking}`. */
export const BikeSchema = z.object({
  id: recordId,
  ...seenVersion,
  customerId: recordId,
  modelCardId: recordId,
  ...details,
  carburettors: z
    .record(
      z.string().regex(/^[1-4]$/),
      z.object({ label: shortText(30, "The label"), marking: shortText(60, "The marking") }),
    )
    .default({}),
});
export type BikeInput = z.output<typeof BikeSchema>;

/** By plate or by when they were added; a minus turns the order round. */
const BIKE_SORTS = ["plate", "-plate", "added", "-added"] as const;

export const BikeQuery = z.object({
  q: z.string().max(200).catch("").default(""),
  sort: z.enum(BIKE_SORTS).catch("-added").default("-added"),
  after: cursorId,
});
export type BikeQueryInput = z.output<typeof BikeQuery>;
