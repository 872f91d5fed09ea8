import { z } from "zod";
import type { InvoiceEdit } from "@/lib/domain/invoices/edits";
import { recordId } from "./ids";
import { oneLine } from "./oneLine";
import { milliOf } from "./quantity";
import { blank, moneyE4, version } from "./stockFields";

const MARKS = ["", "Z", "E", "O"] as const;
const KINDS = ["labour", "part", "fixed", "sundries", "outside", "discount"] as const;

/** Kinds of line that can be added by hand. */
export const ADDED_KINDS = ["fixed", "labour", "part", "outside", "allowance", "charge"] as const;
export const ADDED_KIND_WORDS = {
  fixed: "anything else",
  labour: "work, in minutes",
  part: "a part",
  outside: "work bought outside",
  allowance: "something off the whole",
  charge: "something on top of the whole",
} as const;
const ON_WHOLE: readonly string[] = ["allowance", "charge"];

export const EDIT_WORDS = {
  change: "changed by hand",
  add: "added by hand",
  off: "taken off",
  fixed: "taken as agreed",
  asWorked: "taken as worked",
} as const;

const key = z.string().trim().min(1, "Open the page again.").max(200, "Open the page again.");
const reason = oneLine(200, "Keep the reason within 200 characters.").pipe(
  z.string().min(3, "Say why: it is kept with the draft."),
);

const quantity = z.preprocess(
  blank,
  z
    .string()
    .max(20, "Enter a number such as 2 or 12.5.")
    .transform((text, context) => {
      const milli = milliOf(text);
      if (milli !== null && milli > 0) return milli;
      context.addIssue({ code: "custom", message: "Enter a number above 0, such as 2 or 12.5." });
      return z.NEVER;
    })
    .optional(),
);

const share = z.preprocess(
  blank,
  z
    .string()
    .regex(/^\d{1,3}(?:[.,]\d{1,2})?$/, "Enter a share such as 10 or 7.5.")
    .transform((text) => Math.round(Number(text.replace(",", ".")) * 100))
    .pipe(z.number().max(10_000, "At most 100 %."))
    .optional()
    .transform((bp) => bp ?? 0),
);

const typed = {
  name: oneLine(160, "Keep the text within 160 characters.").default(""),
  quantity,
  price: moneyE4,
  discount: share,
  taxMark: z.enum(MARKS, "Choose how it is taxed.").default(""),
};

/** A line of a draft as it is to be: typed anew, taken off, or as a basis has it. */
export const EditLineSchema = z
  .object({
    id: recordId,
    version,
    key,
    act: z.enum(["change", "off", "fixed", "asWorked"], "Choose what is charged."),
    reason,
    ...typed,
  })
  .superRefine(whole);
export type EditLine = z.output<typeof EditLineSchema>;

export const AddInvoiceLineSchema = z
  .object({
    id: recordId,
    version,
    act: z.literal("add").default("add"),
    kind: z.enum(ADDED_KINDS, "Choose what it is."),
    /** The job whose line it is; absent: the one that the draft began with. */
    jobId: recordId.optional(),
    /** Code of a part that is taken from stock with it; empty for none. */
    part: z.string().trim().max(40, "Keep the code within 40 characters.").default(""),
    reason,
    ...typed,
  })
  .superRefine(whole);
export type AddInvoiceLine = z.output<typeof AddInvoiceLineSchema>;

export const PutLineBackSchema = z.object({ id: recordId, version, key });

/** What is typed must be whole where it counts. */
function whole(
  line: { act: string; name: string; price: number | null; discount: number; kind?: string },
  context: z.RefinementCtx,
): void {
  if (line.act !== "change" && line.act !== "add") return;
  if (ON_WHOLE.includes(line.kind ?? "")) {
    onWhole(line, context);
    return;
  }
  if (line.name === "") context.addIssue({ code: "custom", path: ["name"], message: "Say what is charged." });
  if (line.price === null)
    context.addIssue({ code: "custom", path: ["price"], message: "Enter the price of one." });
}

/** What is on the whole has a reason that is printed, and an amount or a share. */
function onWhole(
  line: { name: string; price: number | null; discount: number },
  context: z.RefinementCtx,
): void {
  const tell = (path: string, message: string) => context.addIssue({ code: "custom", path: [path], message });
  if (line.name === "") tell("name", "Say what it is for: it is printed.");
  if (line.discount === 0 && !line.price) tell("price", "Enter an amount, or a share in %.");
  if (line.discount > 0 && line.price) tell("discount", "Enter an amount or a share, not both.");
}

const StoredLine = z.strictObject({
  kind: z.enum(KINDS),
  name: z.string(),
  unit: z.string(),
  quantityMilli: z.int(),
  unitPriceE4: z.int(),
  discountBp: z.int(),
  adds: z.literal(true).exactOptional(),
  taxMark: z.enum(MARKS),
  partId: z.int().exactOptional(),
});

/** A change out of the database. */
export function storedEdit(row: {
  readonly key: string;
  readonly act: string;
  readonly line: unknown;
  readonly reason: string;
  readonly personName: string;
}): InvoiceEdit {
  return {
    key: row.key,
    act: z.enum(["change", "add", "off", "fixed", "asWorked"]).parse(row.act),
    line: z.union([z.strictObject({}).transform(() => null), StoredLine]).parse(row.line),
    reason: row.reason,
    by: row.personName,
  };
}
