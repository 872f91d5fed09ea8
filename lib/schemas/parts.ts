import { z } from "zod";
import { cursorId } from "./ids";
import { CONVENTIONS, PART_KINDS } from "./partWords";
import { PART_UNITS } from "./quantity";
import {
  dayOrNothing,
  id,
  milliOrNothing,
  moneyE4,
  optional,
  short,
  ticked,
  version,
  whole,
} from "./stockFields";

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
  taxMark: z.enum(["", "Z", "E", "O"], { error: "Choose how it is taxed." }).optional(),
  point: milliOrNothing,
  top: milliOrNothing.optional(),
  /** Code of the part that took its place; empty: it is made. Absent leaves it. */
  replacedBy: optional("Replacement", 60).optional(),
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
export const PartSchema = PartFields.extend({
  id,
  version,
  active: ticked,
  moveAll: ticked,
}).superRefine(sensible);
export type NewPartInput = z.output<typeof NewPartSchema>;
export type PartInput = z.output<typeof PartSchema>;

export const SubstituteSchema = z.object({
  partId: id,
  code: short("Part", 60).min(1, "Enter the other part's code."),
  note: optional("Note", 120),
});
export const NoAlternativeSchema = z.object({ partId: id, otherId: id });
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
  /** Which of several files, from 1; null until one is chosen. */
  file: z.coerce.number().int().min(1).max(100).nullable().catch(null).default(null),
});

/** The parts list's place in the address bar. */
export const PartListSchema = z.object({
  q: z.string().trim().max(80).catch("").default(""),
  kind: z.enum(PART_KINDS).optional().catch(undefined),
  family: z.string().max(60).catch("").default(""),
  below: z.enum(["1"]).optional().catch(undefined),
  after: cursorId,
});
export type PartListQuery = z.output<typeof PartListSchema>;

/** The drawer's place in the address bar. */
export const DrawerSchema = z.object({ family: z.string().max(60).catch("").default(""), after: cursorId });
