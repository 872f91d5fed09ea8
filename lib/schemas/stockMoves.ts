import { z } from "zod";
import { milliOf } from "./quantity";
import {
  binOrUsual,
  blank,
  chosenBin,
  id,
  moneyE4,
  on,
  optional,
  quantity,
  short,
  ticked,
  version,
} from "./stockFields";

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
  /** Out of this reservation; with neither this nor a job, free stock is used. */
  reservationId: z.preprocess(blank, id.optional()),
  /** For this job in work: out of its reservation if it holds one, else out of what is free. */
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
