import { z } from "zod";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { day, line, taxSubtotal, text, totals, whole } from "./pieces";
import { readVersion, type Versions } from "./versions";

/** An issued document as it is kept: all that it prints, unchanged for good. */
export interface FrozenInvoice extends PrintedInvoice {
  readonly format: "throttlewright-invoice";
  readonly version: 1;
}

export function frozenOf(printed: PrintedInvoice): FrozenInvoice {
  return { format: "throttlewright-invoice", version: 1, ...printed };
}

const Version1 = z.looseObject({
  format: z.literal("throttlewright-invoice"),
  version: z.literal(1),
  kind: z.enum(["invoice", "creditNote"]),
  number: whole.nullable(),
  title: text,
  issuedOn: day,
  dueOn: day,
  supplyOn: day,
  basis: z.enum(["fixed", "asWorked"]),
  credits: z.looseObject({ number: whole, issuedOn: day, reason: text }).nullable(),
  seller: z.looseObject({
    name: text,
    legalName: text,
    taxNumber: text,
    numberName: text,
    address: text,
    phone: text,
    email: text,
    bankDetails: text,
  }),
  buyer: z.looseObject({ name: text, address: text, taxNumber: text, business: z.boolean() }),
  job: z.looseObject({ number: whole, title: text }),
  quotes: z.array(whole),
  bike: z.looseObject({ name: text, plate: text, frameNumber: text, odometerKm: whole.nullable() }),
  country: text,
  locale: text,
  currency: text,
  pricesIncludeTax: z.boolean(),
  taxRegime: text,
  lines: z.array(line),
  taxes: z.array(taxSubtotal),
  ...totals,
  prepaidMinor: whole,
  dueMinor: whole,
  deposits: z.array(z.looseObject({ paidOn: day, method: text, amountMinor: whole })),
  note: text,
  rule: z.looseObject({ tier: text, source: text }),
}) satisfies z.ZodType<FrozenInvoice>;

const INVOICES: Versions<FrozenInvoice> = {
  format: "throttlewright-invoice",
  what: "an issued document",
  readers: { 1: Version1 },
};

/** An issued document out of the database. Its hash is that of the JSON as it was kept. */
export function storedInvoice(json: unknown): FrozenInvoice {
  return readVersion(INVOICES, json);
}
