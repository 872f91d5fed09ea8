import { z } from "zod";
import { MOST_LIST_BYTES } from "@/lib/domain/bank/readList";
import {
  BANK_FIELDS,
  type BankColumns,
  type BankField,
  DATE_ORDERS,
  type DateOrder,
} from "@/lib/domain/bank/types";
import { formId, recordId } from "./ids";
import { oneLine } from "./oneLine";
import { typedAmount } from "./typedAmount";

/** So many lines are shown, and booked in one act. */
export const MOST_AT_ONCE = 100;

const column = z
  .string()
  .regex(/^\d{0,3}$/, "Choose the column again.")
  .default("")
  .transform((text) => (text === "" ? null : Number(text)));

/** A bank's list with its columns chosen: `columns.<field>` is a column's place from 0, or blank. */
export const BankListSchema = z.object({
  fileName: oneLine(200).default("list.csv"),
  text: z
    .string("Choose a file first.")
    .min(1, "Choose a file first.")
    .max(MOST_LIST_BYTES + 20_000, "The file is larger than 1 MB: take a shorter time at once."),
  columns: z
    .object(
      Object.fromEntries(BANK_FIELDS.map((field) => [field, column])) as Record<BankField, typeof column>,
    )
    .superRefine(({ date, amount, moneyIn, moneyOut }, context) => {
      if (date === null)
        context.addIssue({ code: "custom", path: ["date"], message: "Choose the column of the day." });
      if (amount === null && moneyIn === null && moneyOut === null)
        context.addIssue({
          code: "custom",
          path: ["amount"],
          message: "Choose the column of the amount, or those of money in and out.",
        });
    })
    .transform((columns): BankColumns => columns),
  dates: z.enum(DATE_ORDERS as [DateOrder, ...DateOrder[]], "Choose how days are written."),
  mark: z.enum([".", ","], "Choose the decimal mark."),
});
export type BankListInput = z.output<typeof BankListSchema>;

export interface Take {
  readonly kind: "invoice" | "deposit";
  readonly id: number;
  readonly minor: number;
}

const PART = /^(invoice|deposit):(\d{1,15}):(\d{1,12})$/u;

/** "invoice:12:10000 deposit:3:500": what a line pays, in minor units. */
const takes = z
  .string()
  .max(4000)
  .default("")
  .transform((text, context): Take[] =>
    text
      .split(" ")
      .filter(Boolean)
      .flatMap((part) => {
        const [, kind, id, minor] = PART.exec(part) ?? [];
        if (kind === "invoice" || kind === "deposit") return [{ kind, id: Number(id), minor: Number(minor) }];
        context.addIssue({ code: "custom", message: "Open the page again." });
        return [];
      }),
  );

const line = { id: recordId, version: formId("Open the page again.") };

/** One line booked as it was shown. What is over is kept with the last invoice, or with the customer where nothing is taken. */
export const BookLineSchema = z.object({ ...line, takes });
export const BookLinesSchema = z.object({
  lines: z
    .record(z.string().regex(/^\d{1,4}$/), z.object({ ...line, takes }))
    .default({})
    .transform((lines) => Object.values(lines))
    .pipe(z.array(z.any()).max(MOST_AT_ONCE, `At most ${MOST_AT_ONCE} lines at once.`))
    .transform((lines) => lines as { id: number; version: number; takes: Take[] }[]),
});

/** One line split by hand over a customer's papers: an amount typed for each; what is over is their balance. */
export const SplitLineSchema = z.object({
  ...line,
  customerId: recordId,
  pays: z.record(z.string().regex(/^(invoice|deposit)-\d{1,15}$/), z.string().trim().max(30)).default({}),
});

/** The amounts typed for a line's papers, in minor units; a blank one pays nothing. Throws Refusal. */
export function typedSplit(
  { pays }: z.output<typeof SplitLineSchema>,
  settings: { readonly currency: string; readonly locale: string },
): Take[] {
  return Object.entries(pays).flatMap(([paper, text]) => {
    if (text === "") return [];
    const [kind, id] = paper.split("-");
    const minor = typedAmount(text, settings, `pays.${paper}`);
    return minor === 0 ? [] : [{ kind: kind === "deposit" ? "deposit" : "invoice", id: Number(id), minor }];
  });
}

export const ASIDE_WORDS = {
  notOurs: "not for the shop",
  ownTransfer: "own money moved",
  fee: "a fee or interest",
  elsewhere: "recorded elsewhere already",
} as const;
const ASIDE = Object.keys(ASIDE_WORDS) as (keyof typeof ASIDE_WORDS)[];

export const SetAsideSchema = z.object({
  ...line,
  reason: z.enum(ASIDE as [keyof typeof ASIDE_WORDS, ...(keyof typeof ASIDE_WORDS)[]], "Choose why."),
});
export const ReopenSchema = z.object({
  ...line,
  why: oneLine(80, "Keep this within 80 characters.").default(""),
});
