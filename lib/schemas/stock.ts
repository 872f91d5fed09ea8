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
export const id = z.coerce.number().int().positive();
export const version = z.coerce.number().int().positive();
export const short = (what: string, most: number) =>
  z.string().trim().max(most, `${what}: at most ${most} letters.`);
export const optional = (what: string, most: number) => short(what, most).optional().default("");

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

export const orNothing = (most: number, message: string, scale: number, places: number) =>
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

export const moneyE4 = orNothing(1e11, "Enter an amount such as 4.80, or leave it empty.", 10_000, 4);
const milliOrNothing = orNothing(1e9, "Enter a number such as 142.5, or leave it empty.", 1000, 3);

/** Whole days, or nothing. */
export const whole = (what: string, most: number) =>
  z.preprocess(
    blank,
    z.coerce
      .number({ error: "Enter whole days, or leave it empty." })
      .int("Enter whole days.")
      .min(0, "Days cannot be less than 0.")
      .max(most, `${what}: at most ${most} days.`)
      .optional(),
  );

/** A day, or nothing; a form without the field leaves what is there. */
const dayOrNothing = z.preprocess(
  (value) => (typeof value === "string" && value.trim() === "" ? null : value),
  z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/, "Enter a day, or leave it empty.")
    .nullable()
    .optional(),
);

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
  leadDays: whole("Days to arrive", 400),
  cost: moneyE4.optional(),
  price: moneyE4,
  priceUntil: dayOrNothing,
  point: milliOrNothing,
  top: milliOrNothing.optional(),
});

/** A jet's size means nothing without how it is numbered, and a size without a family has no drawer. */
function sensible(part: z.output<typeof PartFields>, context: z.RefinementCtx): void {
  if (part.top && part.point && part.top <= part.point)
    context.addIssue({
      code: "custom",
      path: ["top"],
      message: "Fill up to more than the order point, or leave it empty.",
    });
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
/** A box that is not ticked is not sent. */
const ticked = z
  .literal("true")
  .optional()
  .transform((sent) => sent !== undefined);
export const PartSchema = PartFields.extend({
  id,
  version,
  active: ticked,
  moveAll: ticked,
}).superRefine(sensible);
export type NewPartInput = z.output<typeof NewPartSchema>;
export type PartInput = z.output<typeof PartSchema>;

/** The day something happened, where that was not today. */
const on = z.preprocess(
  blank,
  z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/, "Enter a day.")
    .optional(),
);

/** A bin that need not be named: nothing is the part's usual one. */
export const binOrUsual = z.preprocess(blank, short("Bin", 30).optional());
/** A bin chosen from those a part lies in: "in:A1", and "in:" for no bin. Anything else is the usual one, then the others. */
export const chosen = (bin: string) => `in:${bin}`;
const chosenBin = z
  .string()
  .max(40)
  .optional()
  .transform((text) => (text?.startsWith("in:") ? text.slice(3) : undefined));

export const ReceiveSchema = z.object({
  partId: id,
  quantity,
  bin: binOrUsual,
  unitCost: moneyE4.optional(),
  why: optional("Note", 200),
  on,
});
export const UseSchema = z.object({
  partId: id,
  quantity,
  from: chosenBin,
  /** Out of this promise; with neither this nor a job, free stock is used. */
  reservationId: z.preprocess(blank, id.optional()),
  /** For this job in work: out of its promise if it holds one, else out of what is free. */
  jobId: z.preprocess(blank, id.optional()),
  why: optional("Note", 200),
});
/** A wrong move is put right by another: what it should have been, without a sign. */
export const CorrectSchema = z.object({
  moveId: id,
  right: z
    .string({ error: "Enter what it should have been; 0 when it never happened." })
    .transform((text, context) => {
      const milli = milliOf(text);
      if (milli !== null && milli >= 0) return milli;
      context.addIssue({
        code: "custom",
        message: "Enter what it should have been; 0 when it never happened.",
      });
      return z.NEVER;
    }),
  why: short("Reason", 200).min(1, "Say why: the ledger keeps it."),
});
const MoveBetween = z.object({
  partId: id,
  quantity,
  from: short("Bin", 30),
  to: short("To bin", 30).default(""),
  version,
  /** The bin it goes to becomes its usual one. */
  home: ticked,
});
export const MoveBetweenSchema = MoveBetween.extend({
  newBin: short("Another bin", 30).default(""),
}).transform(({ newBin, ...move }, context) => {
  const to = newBin || move.to;
  if (to !== "") return { ...move, to };
  context.addIssue({
    code: "custom",
    path: ["newBin"],
    message: "Say which bin it goes to: what is written on it will do.",
  });
  return z.NEVER;
});
/** Back again, also to no bin, and the usual bin as it was. */
export const MoveBackSchema = MoveBetween.extend({
  homeBin: short("Bin", 30).default(""),
});
export const AlternativeSchema = z.object({
  partId: id,
  code: short("Part", 60).min(1, "Enter the other part's code."),
  note: optional("Note", 120),
});
export const NoAlternativeSchema = z.object({ partId: id, otherId: id });

export const StartCountSchema = z.object({
  bin: short("Bin", 30).min(1, "Choose a bin, or type what is written on it."),
});
export const FoundSchema = z.object({
  sheetId: id,
  code: short("Part", 120).min(1, "Scan or type what its label or bag says."),
});
/** What was counted, by part; a part that is not filled in is not counted. */
export const BinCountSchema = z.object({
  sheetId: id,
  version,
  counted: z.record(z.string().regex(/^\d+$/), z.preprocess(blank, countOf.optional())).default({}),
});
export const ApproveCountSchema = z.object({
  sheetId: id,
  version,
  why: optional("Note", 200),
  leaveOut: z
    .union([z.string(), z.array(z.string())])
    .optional()
    .transform((sent) => [sent ?? []].flat().map(Number)),
});
export const CountSheetSchema = z.object({ sheetId: id, version });
export const LabelsSchema = z.object({
  paper: z.enum(["roll", "sheet"]).catch("roll"),
  ids: z
    .preprocess(
      (value) => (typeof value === "string" ? value.split(",").filter(Boolean) : value),
      z.array(id).max(2000).catch([]),
    )
    .default([]),
  family: z.string().max(60).catch("").default(""),
  bin: z.string().max(40).catch("").default(""),
  copies: z.coerce.number().int().min(1).max(100).catch(1),
  start: z.coerce.number().int().min(1).max(24).catch(1),
});
export const OrderSchema = z.object({ partId: id, quantity, why: optional("Note", 200) });
export const TakeOutSchema = z.object({
  partId: id,
  kind: z.enum(["scrap", "returnToSupplier"], { error: "Choose what happens to it." }),
  quantity,
  from: chosenBin,
  why: short("Reason", 200).min(1, "Say why: the ledger keeps it."),
});
export const ReturnSchema = z.object({
  partId: id,
  quantity,
  bin: binOrUsual,
  jobId: z.preprocess(blank, id.optional()),
  why: short("Reason", 200).min(1, "Say where it comes from: the ledger keeps it."),
});
export const CountSchema = z.object({
  partId: id,
  counted: countOf,
  bin: chosenBin,
  /** What lay there when the variance was shown: a move in between asks for a new count. */
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
