import { z } from "zod";
import { ACCOUNT_KINDS, ACCOUNT_USES, type AccountUse } from "@/lib/domain/ledger/accounts";
import { parseMoney } from "@/lib/domain/money/parse";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { cursorId } from "./ids";
import { oneLine } from "./oneLine";
import { blank } from "./stockFields";

const day = z.iso.date().optional().catch(undefined);

/** The range that is looked at, by its first and last local day. */
const LedgerQuery = z.object({ from: day, to: day });
/** The entry after which a page of the journal begins: its day, which of the day's kinds it is, and its number. */
export const JournalAfterSchema = z.object({
  after: z
    .string()
    .regex(/^\d{4}-\d\d-\d\d\.[0-3]\.\d{1,10}$/)
    .transform((text) => {
      const [day = "", turn, id] = text.split(".");
      return { day, turn: Number(turn), id: Number(id) };
    })
    .optional()
    .catch(undefined),
});
/** Which series is listed, and after which number or row. */
export const RegisterQuery = z.object({
  kind: z.enum(["invoice", "creditNote", "receipt"]).catch("invoice"),
  after: cursorId,
});
/** The day that is looked at. */
export const OnDayQuery = z.object({ day });

const version = z
  .string()
  .regex(/^\d{1,9}$/, "Open the page again.")
  .transform(Number);

/** Letters, digits, dots and hyphens: what an address and SAF-T both take. */
const CODE = /^[\p{L}\d][\p{L}\d.-]{0,19}$/u;
const code = z
  .string()
  .trim()
  .regex(CODE, "Enter the account's number: up to 20 digits or letters, dots and hyphens among them.");

const account = {
  version,
  code,
  name: oneLine(120).pipe(z.string().min(1, "Enter what the account is called.")),
  kind: z.enum(ACCOUNT_KINDS, "Choose what it is."),
  groupCategory: oneLine(60).default(""),
  groupCode: oneLine(20).default(""),
};

export const NewAccountSchema = z.object(account);
/** `was`: the code that it had. */
export const ChangeAccountSchema = z.object({ ...account, was: code });
export const RemoveAccountSchema = z.object({ version, code });

export const AccountUsesSchema = z.object({
  version,
  uses: z.partialRecord(z.enum(ACCOUNT_USES as [AccountUse, ...AccountUse[]]), code),
});

export const OpeningSchema = z.object({
  version,
  startsOn: z.preprocess(blank, z.iso.date("Enter the day.").optional()),
  yearMonth: z
    .string()
    .regex(/^([1-9]|1[0-2])$/, "Choose the month.")
    .transform(Number),
  stockToo: z.literal("on").optional(),
  /** By the account's place in the list, so that a code may be anything. */
  opening: z
    .record(
      z.string().regex(/^\d{1,3}$/),
      z.object({ code, debit: z.string().max(30).default(""), credit: z.string().max(30).default("") }),
    )
    .default({}),
});

/** Some 20 million: the largest amount that is kept. */
const MOST_MINOR = 2_000_000_000;

/** What stands on an account as a form says it: a debit, below zero a credit. Throws Refusal for what is no amount. */
export function openingMinor(
  { debit, credit }: { readonly debit: string; readonly credit: string },
  field: string,
  { currency, locale }: { readonly currency: string; readonly locale: string },
): number {
  const read = (text: string, side: string) => {
    if (text.trim() === "") return 0;
    try {
      const minor = parseMoney(text, currency, locale);
      if (Math.abs(minor) <= MOST_MINOR) return minor;
      throw new Refusal("That is more than is kept here.", "Enter it in parts, on several accounts.");
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
      throw new Refusal(cause.message, cause.remedy, { [`${field}.${side}`]: cause.remedy });
    }
  };
  return read(debit, "debit") - read(credit, "credit");
}

/** The range that an address asks for: this month where it names none, and the right way round. */
export function ledgerRange(query: unknown, now: Date, zone: string): { from: string; to: string } {
  const asked = LedgerQuery.parse(query);
  const today = dayIn(zone, now);
  const to = asked.to ?? (asked.from && asked.from > today ? asked.from : today);
  const from = asked.from ?? `${to.slice(0, 7)}-01`;
  return from <= to ? { from, to } : { from: to, to: from };
}
