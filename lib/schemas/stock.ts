import { z } from "zod";
import { milliOf, PART_UNITS } from "./quantity";

export * from "./quantity";

export const PART_KINDS = [
  "jet",
  "needle",
  "spring",
  "filter",
  "screw",
  "hose",
  "seal",
  "chemical",
  "other",
] as const;
export const CONVENTIONS = ["", "bore", "flow"] as const;
export const CONVENTION_WORDS: Readonly<Record<(typeof CONVENTIONS)[number], string>> = {
  "": "not a jet",
  bore: "bore in 1/100 mm",
  flow: "rated flow",
};

const blank = (value: unknown) => (typeof value === "string" && value.trim() === "" ? undefined : value);
const id = z.coerce.number().int().positive();
const version = z.coerce.number().int().positive();
const short = (what: string, most: number) =>
  z.string().trim().max(most, `${what}: at most ${most} letters.`);
const optional = (what: string, most: number) => short(what, most).optional().default("");

/** A quantity typed in the part's unit, kept in thousandths. */
export const quantity = z.string({ error: "Enter how much." }).transform((text, context) => {
  const milli = milliOf(text);
  if (milli !== null && milli > 0) return milli;
  context.addIssue({ code: "custom", message: "Enter a number above 0, such as 3 or 12.5." });
  return z.NEVER;
});

const countOf = z
  .string({ error: "Enter what you counted; 0 when the bin is empty." })
  .transform((text, context) => {
    const milli = milliOf(text);
    if (milli !== null && milli >= 0) return milli;
    context.addIssue({ code: "custom", message: "Enter what you counted; 0 when the bin is empty." });
    return z.NEVER;
  });

const orNothing = (most: number, message: string, scale: number, places: number) =>
  z.preprocess(
    blank,
    z
      .string()
      .transform((text, context) => {
        const found = new RegExp(`^(\\d{1,8})(?:[.,](\\d{1,${places}}))?$`).exec(text.trim());
        const value = found
          ? Number(found[1]) * scale + Number((found[2] ?? "").padEnd(places, "0"))
          : Number.NaN;
        if (value <= most) return value;
        context.addIssue({ code: "custom", message });
        return z.NEVER;
      })
      .optional()
      .transform((value) => value ?? null),
  );

const moneyE4 = orNothing(1e11, "Enter an amount such as 4.80, or leave it empty.", 10_000, 4);
const milliOrNothing = orNothing(1e9, "Enter a number such as 142.5, or leave it empty.", 1000, 3);

const PartFields = z.object({
  code: short("Code", 40).min(1, "Give the part a code: the one on its bag or bin will do."),
  name: short("Name", 120).min(1, "Give the part a name."),
  kind: z.enum(PART_KINDS, { error: "Choose a kind." }),
  unit: z.enum(PART_UNITS, { error: "Choose how it is counted." }),
  family: optional("Family", 60),
  size: milliOrNothing,
  convention: z.enum(CONVENTIONS, { error: "Choose how its size is numbered." }).optional().default(""),
  supplier: optional("Supplier", 80),
  supplierCode: optional("Supplier's code", 60),
  bin: optional("Bin", 30),
  leadDays: z.preprocess(
    blank,
    z.coerce
      .number({ error: "Enter whole days, or leave it empty." })
      .int("Enter whole days.")
      .min(0, "Days cannot be less than 0.")
      .max(400, "At most 400 days.")
      .optional(),
  ),
  cost: moneyE4.optional(),
  price: moneyE4,
  point: milliOrNothing,
});

/** A jet's size means nothing without how it is numbered, and a size without a family has no drawer. */
function sensible(part: z.output<typeof PartFields>, context: z.RefinementCtx): void {
  if (part.family && part.size === null)
    context.addIssue({
      code: "custom",
      path: ["size"],
      message: "A family is a drawer of sizes: enter this one's size.",
    });
  if (part.kind === "jet" && part.size !== null && part.convention === "")
    context.addIssue({
      code: "custom",
      path: ["convention"],
      message: "Say whether the jet's number is a bore or a flow.",
    });
}

export const NewPartSchema = PartFields.extend({ opening: milliOrNothing }).superRefine(sensible);
export const PartSchema = PartFields.extend({
  id,
  version,
  /** A box that is not ticked is not sent. */
  active: z
    .literal("true")
    .optional()
    .transform((ticked) => ticked !== undefined),
}).superRefine(sensible);
export type NewPartInput = z.output<typeof NewPartSchema>;
export type PartInput = z.output<typeof PartSchema>;

export const ReceiveSchema = z.object({
  partId: id,
  quantity,
  unitCost: moneyE4.optional(),
  why: optional("Note", 200),
});
export const OrderSchema = z.object({ partId: id, quantity, why: optional("Note", 200) });
export const TakeOutSchema = z.object({
  partId: id,
  kind: z.enum(["scrap", "returnToSupplier"], { error: "Choose what happens to it." }),
  quantity,
  why: short("Reason", 200).min(1, "Say why: the ledger keeps it."),
});
export const ReturnSchema = z.object({
  partId: id,
  quantity,
  jobId: z.preprocess(blank, id.optional()),
  why: short("Reason", 200).min(1, "Say where it comes from: the ledger keeps it."),
});
export const CountSchema = z.object({
  partId: id,
  counted: countOf,
  /** On hand when the variance was shown: a move in between asks for a new count. */
  seenMilli: z.coerce.number().int().min(0),
  why: optional("Note", 200),
});
export const CountedSchema = countOf;
export const SplitSchema = z.object({
  partId: id,
  quantity,
  /** What was in it: rows left empty are none of it. */
  into: z
    .record(z.string().regex(/^\d+$/), z.preprocess(blank, quantity.optional()))
    .transform((rows, context) => {
      const into = Object.entries(rows).flatMap(([part, milli]) =>
        milli === undefined ? [] : [{ partId: Number(part), quantityMilli: milli }],
      );
      if (into.length > 0) return into;
      context.addIssue({ code: "custom", message: "Enter how many of each size were in it." });
      return z.NEVER;
    }),
});
export const ReleaseSchema = z.object({ reservationId: id, partId: id });

/** The parts list's place in the address bar. */
export const PartListSchema = z.object({
  q: z.string().trim().max(80).catch("").default(""),
  kind: z.enum(PART_KINDS).optional().catch(undefined),
  family: z.string().max(60).catch("").default(""),
  below: z.enum(["1"]).optional().catch(undefined),
  after: z.coerce.number().int().positive().optional().catch(undefined),
});
export type PartListQuery = z.output<typeof PartListSchema>;
