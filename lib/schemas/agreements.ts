import { z } from "zod";
import { AGREEMENTS, YES_HOWS } from "./agreementWords";
import { oneLine } from "./oneLine";
import { id, version } from "./packages";
import { partRows } from "./recipeRows";
import { readTyped } from "./typedNumber";

const money = z.string().trim().max(30).default("");
const said = {
  saidBy: oneLine(120, "Keep the name within 120 characters.").default(""),
  how: z.enum(YES_HOWS, "Say how they said yes.").default("phone"),
  upTo: money,
};
const title = oneLine(120, "Keep this within 120 characters.").min(1, "Say what is to be done.");
const plain = z.string().trim().max(2000, "Keep this within 2,000 characters.").default("");
/** Blank: no time is planned. */
const minutes = z
  .string()
  .trim()
  .max(10)
  .default("")
  .transform((typed, context): number => {
    const value = readTyped(typed === "" ? "0" : typed);
    if (typeof value === "number" && Number.isInteger(value) && value >= 0 && value <= 6000) return value;
    context.addIssue({ code: "custom", message: "Enter whole minutes, or leave it empty." });
    return z.NEVER;
  });
const grade = z.string().trim().max(60).default("");
const optionalId = z.preprocess((typed) => (typed === "" ? undefined : typed), id.optional());

export const OpenJobSchema = z
  .object({
    bikeId: id,
    kind: z.enum(AGREEMENTS, "Say what the job stands on."),
    title,
    plain,
    minutes,
    grade,
    ...said,
    comebackOfId: optionalId,
    charged: z.enum(["nothing", "part", "full"], "Say what is charged.").default("nothing"),
    percent: z.string().trim().max(10).default(""),
    why: oneLine(200, "Keep the reason within 200 characters.").default(""),
  })
  .superRefine((job, context) => {
    const tell = (path: string, message: string) =>
      context.addIssue({ code: "custom", path: [path], message });
    if (job.kind === "word" && job.saidBy === "") tell("saidBy", "Say who said yes.");
    if (job.kind === "word" && job.upTo === "") tell("upTo", "Say up to which amount.");
    if (job.kind === "comeback" && job.comebackOfId === undefined)
      tell("comebackOfId", "Choose the job it comes back from.");
    if (job.kind === "comeback" && job.why === "") tell("why", "Say why it is charged so.");
    if (job.kind === "comeback" && job.charged === "part" && shareOf(job.percent) === null)
      tell("percent", "Enter 1 to 99 percent.");
  });

/** A share typed in percent, in basis points; null where it is none between nothing and all. */
export function shareOf(typed: string): number | null {
  const value = readTyped(typed);
  return typeof value === "number" && value >= 1 && value <= 99 ? Math.round(value * 100) : null;
}

export const AnotherYesSchema = z.object({
  jobId: id,
  version,
  saidBy: said.saidBy.pipe(z.string().min(1, "Say who said yes.")),
  how: said.how,
  upTo: money.pipe(z.string().min(1, "Say up to which amount.")),
  note: oneLine(200, "Keep this within 200 characters.").default(""),
});

export const AddToJobSchema = z.object({
  jobId: id,
  title,
  minutes,
  grade,
  parts: partRows,
  kitId: optionalId,
  kitCount: z.preprocess(
    (typed) => (typed === "" ? undefined : typed),
    z.coerce
      .number("Enter how many kits.")
      .int("Enter whole kits.")
      .min(1, "Enter 1 or more.")
      .max(100, "At most 100 at once.")
      .default(1),
  ),
});
export const CloseFreeSchema = z.object({ jobId: id, version });

export type OpenJob = z.output<typeof OpenJobSchema> & { key?: string | undefined };
export type AnotherYes = z.output<typeof AnotherYesSchema> & { key?: string | undefined };
export type AddToJob = z.output<typeof AddToJobSchema> & { key?: string | undefined };
