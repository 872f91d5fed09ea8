import { z } from "zod";
import type { StatementPaper } from "@/lib/domain/chasing/statement";
import { payTo } from "./invoice";
import { day, text, whole } from "./pieces";
import { readVersion, type Versions } from "./versions";

/** What a statement said when it was mailed: kept with the mail, since the account goes on. */
export interface PrintedStatement extends StatementPaper {
  readonly format: "throttlewright-statement";
  readonly version: 1;
}

export const seller = z.looseObject({
  name: text,
  legalName: text,
  taxNumber: text,
  numberName: text,
  numberMarks: z.array(text).exactOptional(),
  address: text,
  phone: text,
  email: text,
  bankDetails: text,
});
export const buyer = z.looseObject({ name: text, address: text, taxNumber: text });
export const ask = z.looseObject({ payTo: payTo.nullable(), reference: text, note: text, name: text });
const minor = whole.exactOptional();

const Version1 = z.looseObject({
  format: z.literal("throttlewright-statement"),
  version: z.literal(1),
  from: day,
  to: day,
  day,
  openingMinor: whole,
  closingMinor: whole,
  entries: z.array(
    z.looseObject({
      on: day,
      kind: z.enum(["invoice", "creditNote", "deposit", "payment", "refund", "writeOff", "bounced"]),
      numbers: z.array(text),
      method: text,
      reference: text,
      minor: whole,
      balanceMinor: whole,
    }),
  ),
  ageing: z.looseObject({
    notDue: minor,
    to30: minor,
    to60: minor,
    to90: minor,
    over90: minor,
    balance: minor,
    deposit: minor,
    credit: minor,
  }),
  ask: ask.nullable(),
  seller,
  buyer,
  locale: text,
  country: text,
  currency: text,
}) satisfies z.ZodType<PrintedStatement>;

const STATEMENTS: Versions<PrintedStatement> = {
  format: "throttlewright-statement",
  what: "a printed statement",
  readers: { 1: Version1 },
};

/** A statement out of a mail. */
export function storedStatement(json: unknown): PrintedStatement {
  return readVersion(STATEMENTS, json);
}
