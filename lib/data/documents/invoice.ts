import { z } from "zod";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { ACCOUNT_FORMS } from "@/lib/domain/money/account";
import { day, line, taxSubtotal, text, totals, whole, writtenAsItIs } from "./pieces";
import { readVersion, type Versions } from "./versions";

/** An issued document as it is kept: all that it prints, unchanged for good. */
export interface FrozenInvoice extends PrintedInvoice {
  readonly format: "throttlewright-invoice";
  readonly version: 4;
}

export function frozenOf(printed: PrintedInvoice): FrozenInvoice {
  return { format: "throttlewright-invoice", version: 4, ...printed };
}

const bike = z.looseObject({
  name: text,
  plate: text,
  frameNumber: text,
  odometerKm: whole.nullable(),
  odometerUnits: text.exactOptional(),
});
const credited = z.looseObject({ number: whole, issuedOn: day, reason: text });
const creditedKind = credited.extend({ kind: z.enum(["invoice", "receipt"]) });
/** Before series could have a prefix, a number was written as it is. */
const asItIs = <T extends { readonly number: number | null }>(of: T) => ({
  ...of,
  written: of.number === null ? "" : String(of.number),
});

/** What every version says. `numbered` reads a quote's and a job's number: written as it is at first, text since they may have a prefix. */
const said = <N extends z.ZodType<string, unknown>>(numbered: N) => ({
  format: z.literal("throttlewright-invoice"),
  number: whole.nullable(),
  title: text,
  issuedOn: day,
  dueOn: day,
  supplyOn: day,
  seller: z.looseObject({
    name: text,
    legalName: text,
    taxNumber: text,
    numberName: text,
    numberMarks: z.array(text).exactOptional(),
    address: text,
    phone: text,
    email: text,
    bankDetails: text,
  }),
  buyer: z.looseObject({ name: text, address: text, taxNumber: text, business: z.boolean() }),
  quotes: z.array(numbered),
  country: text,
  locale: text,
  currency: text,
  pricesIncludeTax: z.boolean(),
  taxRegime: text,
  lines: z.array(line.extend({ job: numbered.exactOptional() })),
  taxes: z.array(taxSubtotal),
  ...totals,
  prepaidMinor: whole,
  dueMinor: whole,
  deposits: z.array(
    z.looseObject({ paidOn: day, method: text, amountMinor: whole, job: numbered.exactOptional() }),
  ),
  note: text,
  rule: z.looseObject({ tier: text, source: text }),
});

const jobOf = <N extends z.ZodType<string, unknown>>(numbered: N) =>
  z.looseObject({ number: numbered, title: text });

/** One job, and nothing sold over the counter. */
const Version1 = z
  .looseObject({
    ...said(writtenAsItIs),
    version: z.literal(1),
    kind: z.enum(["invoice", "creditNote"]),
    basis: z.enum(["fixed", "asWorked"]),
    credits: credited.nullable(),
    job: jobOf(writtenAsItIs),
    bike,
  })
  .transform(
    ({ job, bike, ...doc }): FrozenInvoice => ({
      ...asItIs(doc),
      version: 4,
      credits: doc.credits && asItIs({ kind: "invoice" as const, ...doc.credits }),
      jobs: [{ ...job, bike }],
      settlements: [],
    }),
  );

const sinceVersion2 = <N extends z.ZodType<string, unknown>>(numbered: N) => ({
  ...said(numbered),
  kind: z.enum(["invoice", "creditNote", "receipt"]),
  basis: z.enum(["fixed", "asWorked", "counter"]),
  jobs: z.array(jobOf(numbered).extend({ bike })),
});

const settlement = z.looseObject({
  method: text,
  amountMinor: whole,
  roundingMinor: whole,
  givenMinor: whole,
  changeMinor: whole,
});

/** Paid by one method at most as it was issued. */
const Version2 = z
  .looseObject({
    ...sinceVersion2(writtenAsItIs),
    version: z.literal(2),
    credits: creditedKind.nullable(),
    settlement: settlement.nullable(),
  })
  .transform(
    ({ settlement: paid, ...doc }): FrozenInvoice => ({
      ...asItIs(doc),
      version: 4,
      credits: doc.credits && asItIs(doc.credits),
      settlements: paid ? [paid] : [],
    }),
  );

const sinceVersion3 = {
  written: text,
  credits: creditedKind.extend({ written: text }).nullable(),
  settlements: z.array(settlement),
};

/** Numbers of quotes and jobs were numbers. */
const Version3 = z
  .looseObject({ ...sinceVersion2(writtenAsItIs), ...sinceVersion3, version: z.literal(3) })
  .transform((doc): FrozenInvoice => ({ ...doc, version: 4 }));

export const payTo = z.looseObject({
  form: z.enum(ACCOUNT_FORMS),
  holder: text,
  branch: text,
  number: text,
  iban: text,
  bic: text,
  reference: text,
  kid: z.boolean(),
});

const take = z.looseObject({ key: text, quantityMilli: whole, shownMinor: whole });

const schemed = z.looseObject({ scheme: text, id: text }).nullable();
const party = z.looseObject({
  street: text,
  city: text,
  postcode: text,
  country: text,
  register: schemed,
  taxId: text,
  address: schemed,
});
const einvoice = z.looseObject({
  profile: z.enum(["pint", "peppol", "core"]),
  seller: party,
  buyer: party,
  buyerReference: text,
  orderNumber: text,
});

const Version4 = z.looseObject({
  ...sinceVersion2(text),
  ...sinceVersion3,
  takes: z.array(take).exactOptional(),
  einvoice: einvoice.exactOptional(),
  payTo: payTo.exactOptional(),
  version: z.literal(4),
}) satisfies z.ZodType<FrozenInvoice>;

const INVOICES: Versions<FrozenInvoice> = {
  format: "throttlewright-invoice",
  what: "an issued document",
  readers: { 1: Version1, 2: Version2, 3: Version3, 4: Version4 },
};

/** An issued document out of the database. Its hash is that of the JSON as it was kept. */
export function storedInvoice(json: unknown): FrozenInvoice {
  return readVersion(INVOICES, json);
}
