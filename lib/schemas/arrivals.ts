import { z } from "zod";
import { BIKE_PART_KEYS, DAMAGES, MOST_DAMAGES, SIDES } from "@/lib/domain/arrival/damage";
import { BIKE_HEIGHT } from "@/lib/domain/arrival/motorcycle";
import { SHEET_WIDTH } from "@/lib/domain/procedures/drawing";
import { formId, recordId } from "./ids";
import { oneLine } from "./oneLine";
import { SIGNATURE_FIELDS } from "./signature";
import { longText, typedNumber } from "./typedNumber";

const place = (most: number) =>
  z
    .string()
    .regex(/^\d{0,3}$/)
    .default("")
    .transform((text) => (text === "" ? null : Number(text)))
    .pipe(z.number().int().min(0).max(most).nullable());
const known = z
  .string()
  .default("")
  .transform((text) => text || undefined)
  .pipe(recordId.optional());

const DamageSchema = z.object({
  side: z.enum(SIDES, "Choose the side."),
  part: z.enum(BIKE_PART_KEYS, "Choose the part."),
  what: z.enum(DAMAGES, "Choose what is wrong."),
  x: place(SHEET_WIDTH),
  y: place(BIKE_HEIGHT),
  note: oneLine(200, "Keep this within 200 characters.").default(""),
  /** The mark of the replaced record that this one goes back to. */
  firstId: known,
});

/** A row of which nobody chose what is wrong is none; a place that was touched is one even so, to be asked about. */
const isRow = (row: unknown) => {
  const { what, note, x } = (row ?? {}) as Record<string, unknown>;
  return [what, note, x].some((said) => typeof said === "string" && said.trim() !== "");
};

/** `damages.<n>.part` and so on; rows that were left empty are dropped, and the others keep their number for what is wrong in them. */
const damages = z
  .record(z.string().regex(/^\d{1,2}$/), z.unknown())
  .default({})
  .transform((rows) => Object.fromEntries(Object.entries(rows).filter(([, row]) => isRow(row))))
  .pipe(z.record(z.string(), DamageSchema))
  .transform((rows) => Object.values(rows))
  .refine(
    (rows) => rows.length <= MOST_DAMAGES,
    `Keep to ${MOST_DAMAGES} marks: beyond that a photo says more.`,
  );

export const ArrivalSchema = z.object({
  jobId: recordId.optional(),
  bookingId: recordId.optional(),
  bikeId: known,
  replacesId: recordId.optional(),
  odometerKm: typedNumber({ name: "The odometer", low: 0, high: 2_000_000, unit: "km", whole: true }),
  odometerRight: z
    .literal("on")
    .optional()
    .transform((tick) => tick === "on"),
  fuelEighths: z
    .string()
    .regex(/^[0-8]?$/, "Choose how full the tank is.")
    .default("")
    .transform((text) => (text === "" ? null : Number(text))),
  keys: typedNumber({ name: "Keys", low: 0, high: 20, whole: true }),
  accessories: longText(500, "What was left on the bike"),
  words: longText(2000, "What the owner says"),
  damages,
});
export type ArrivalInput = Omit<z.output<typeof ArrivalSchema>, "odometerRight"> & {
  readonly odometerRight?: boolean;
  readonly key?: string | undefined;
};

export const SignArrivalSchema = z.object({ id: formId(), version: formId(), ...SIGNATURE_FIELDS });
