import { z } from "zod";
import { type Column, FAVOURS } from "@/lib/domain/chasing/accountLines";
import { AGES } from "@/lib/domain/chasing/age";
import { cursorId, recordId } from "./ids";

export const COLUMNS = [...AGES, ...FAVOURS] as const satisfies readonly Column[];

/** What stands over each column of an aged list. */
export const COLUMN_WORDS: Readonly<Record<Column, string>> = {
  notDue: "Not due",
  to30: "1 to 30 days",
  to60: "31 to 60",
  to90: "61 to 90",
  over90: "Over 90",
  balance: "Over-paid",
  deposit: "Deposits",
  credit: "Credit notes",
};

const day = z.iso.date().optional().catch(undefined);

/** What is asked of the aged list: a day, and which documents. */
export const OwingQuery = z.object({
  on: day,
  customer: recordId.optional().catch(undefined),
  column: z.enum(COLUMNS).optional().catch(undefined),
  by: z.enum(["document"]).optional().catch(undefined),
  after: cursorId,
});
export type OwingQueryInput = z.output<typeof OwingQuery>;

/** The days of a statement; the last three months where none are asked for. */
export const StatementQuery = z.object({ from: day, to: day });

const typedDay = z.iso.date("Enter the day.");
/** What somebody adds to a letter in their own words. */
const words = z.string().trim().max(1000, "Keep this within 1,000 characters.").default("");

export const MailStatementSchema = z.object({ customerId: recordId, from: typedDay, to: typedDay, words });
