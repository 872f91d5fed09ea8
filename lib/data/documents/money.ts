import { z } from "zod";
import type { PrintedMoney } from "@/lib/domain/invoices/moneyPaper";
import { ACCOUNT_FORMS } from "@/lib/domain/money/account";
import { day, text, whole } from "./pieces";
import { readVersion, type Versions } from "./versions";

/** A deposit request or a receipt as a mail took it along. */
export interface FrozenMoney extends PrintedMoney {
  readonly format: "throttlewright-money";
  readonly version: 1;
}

export const frozenMoney = (printed: PrintedMoney): FrozenMoney => ({
  format: "throttlewright-money",
  version: 1,
  ...printed,
});

const payTo = z.looseObject({
  form: z.enum(ACCOUNT_FORMS),
  holder: text,
  branch: text,
  number: text,
  iban: text,
  bic: text,
  reference: text,
  kid: z.boolean(),
});

const Version1 = z.looseObject({
  format: z.literal("throttlewright-money"),
  version: z.literal(1),
  kind: z.enum(["depositRequest", "received", "paidBack"]),
  number: text,
  day,
  seller: z.looseObject({
    name: text,
    legalName: text,
    taxNumber: text,
    numberName: text,
    address: text,
    phone: text,
    email: text,
  }),
  buyer: z.looseObject({ name: text, address: text }),
  country: text,
  locale: text,
  currency: text,
  lines: z.array(
    z.looseObject({
      of: z.enum(["invoice", "job", "balance"]),
      number: text,
      title: text,
      method: text,
      minor: whole,
    }),
  ),
  totalMinor: whole,
  agreedMinor: whole.nullable(),
  said: text,
  ask: z.looseObject({ payTo: payTo.nullable(), reference: text, note: text, name: text }).nullable(),
}) satisfies z.ZodType<FrozenMoney>;

const PAPERS: Versions<FrozenMoney> = {
  format: "throttlewright-money",
  what: "a paper about money",
  readers: { 1: Version1 },
};

/** Such a paper out of a mail. */
export const storedMoney = (json: unknown): FrozenMoney => readVersion(PAPERS, json);
