import { taxRegime } from "./rates";
import type { RegimeKey } from "./regimes";

/** Things a document must show. */
export type InvoiceField =
  | "title"
  | "number"
  | "issueDate"
  | "supplyDate"
  | "sellerName"
  | "sellerAddress"
  | "sellerNumber"
  | "buyerIdentity"
  | "buyerAddress"
  | "description"
  | "quantity"
  | "unitPrice"
  | "netPerRate"
  | "rates"
  | "grossPerRate"
  | "taxAmount"
  | "taxedExtent"
  | "gross"
  | "dueDate";

/** What an invoice must carry under a regime at a total; `title` is what the document is called. */
export interface InvoiceRequirements {
  readonly title: string;
  readonly tier: string;
  readonly fields: readonly InvoiceField[];
  readonly source: string;
  readonly note: string;
}

interface Tier {
  readonly name: string;
  /** Total with tax, in minor units of `currency`, up to which the tier holds; null is "anything dearer". */
  readonly upToMinor: number | null;
  readonly fields: readonly InvoiceField[];
}

interface Rules {
  readonly title: string;
  /** Tiers are stated in this currency; a document in another gets the fullest tier. */
  readonly currency: string;
  readonly tiers: readonly Tier[];
  readonly source: string;
}

const NZ_SMALL: readonly InvoiceField[] = ["sellerName", "issueDate", "description", "gross"];
const NZ_MIDDLE: readonly InvoiceField[] = [...NZ_SMALL, "sellerNumber", "taxAmount"];
// The seven of s 29-70: meant as a tax invoice, seller, ABN, date, what was sold, GST, how far each sale is taxed.
const AU_SEVEN: readonly InvoiceField[] = [
  "title",
  "sellerName",
  "sellerNumber",
  "issueDate",
  "description",
  "quantity",
  "gross",
  "taxAmount",
  "taxedExtent",
];
const GB_SMALL: readonly InvoiceField[] = [
  "sellerName",
  "sellerAddress",
  "sellerNumber",
  "supplyDate",
  "description",
  "rates",
  "gross",
];
const EU_SMALL: readonly InvoiceField[] = [
  "issueDate",
  "sellerName",
  "sellerNumber",
  "description",
  "taxAmount",
];
const FULL: readonly InvoiceField[] = [
  "title",
  "number",
  "issueDate",
  "supplyDate",
  "sellerName",
  "sellerAddress",
  "sellerNumber",
  "buyerIdentity",
  "buyerAddress",
  "description",
  "quantity",
  "unitPrice",
  "netPerRate",
  "rates",
  "taxAmount",
  "gross",
];
const PLAIN: readonly InvoiceField[] = ["number", "issueDate", "sellerName", "description", "gross"];

const one = (title: string, fields: readonly InvoiceField[], source: string): Rules => ({
  title,
  currency: "",
  tiers: [{ name: "every invoice", upToMinor: null, fields }],
  source,
});

const RULES: Readonly<Record<RegimeKey, Rules>> = {
  au: {
    title: "Tax invoice",
    currency: "AUD",
    tiers: [
      { name: "below 1,000 AUD", upToMinor: 99_999, fields: AU_SEVEN },
      { name: "1,000 AUD or more", upToMinor: null, fields: [...AU_SEVEN, "buyerIdentity"] },
    ],
    source: "GST Act 1999 s 29-70; not checked against the published text",
  },
  nz: {
    title: "Tax invoice",
    currency: "NZD",
    tiers: [
      { name: "up to 200 NZD", upToMinor: 20_000, fields: NZ_SMALL },
      { name: "above 200 to 1,000 NZD", upToMinor: 100_000, fields: NZ_MIDDLE },
      { name: "above 1,000 NZD", upToMinor: null, fields: [...NZ_MIDDLE, "buyerIdentity", "buyerAddress"] },
    ],
    source:
      "Goods and Services Tax Act 1985, s 19K (taxable supply information since 2023-04-01); not checked against the published text",
  },
  gb: {
    title: "VAT invoice",
    currency: "GBP",
    tiers: [
      { name: "simplified, up to 250 GBP", upToMinor: 25_000, fields: GB_SMALL },
      { name: "full, above 250 GBP", upToMinor: null, fields: FULL },
    ],
    source: "Value Added Tax Regulations 1995, reg 14 and reg 16A; not checked against the published text",
  },
  no: one(
    "Faktura",
    [...FULL, "dueDate"],
    "Bokføringsforskriften § 5-1-1; not checked against the published text",
  ),
  eu: {
    title: "Invoice",
    currency: "EUR",
    tiers: [
      { name: "simplified, up to 100 EUR", upToMinor: 10_000, fields: EU_SMALL },
      { name: "full, above 100 EUR", upToMinor: null, fields: FULL },
    ],
    source: "Directive 2006/112/EC art. 220a, 226 and 226b; not checked against the published text",
  },
  us: one(
    "Invoice",
    [...PLAIN, "taxAmount", "taxedExtent"],
    "Common practice: sales tax is stated apart; states differ",
  ),
  entered: one("Invoice", [...PLAIN, "sellerNumber", "taxAmount", "rates"], "Common practice"),
  none: one("Invoice", PLAIN, "Common practice; a seller who is not registered must not show tax"),
};

/**
 * What an invoice must carry: title, fields, and the tier that its total with tax (minor units) falls in.
 * Credit notes count by their size. In another currency than the regime's the fullest tier applies.
 * Throws Refusal for an unknown regime.
 */
export function invoiceRequirements(
  regimeKey: string,
  grossMinor: number,
  currency?: string,
): InvoiceRequirements {
  const regime = taxRegime(regimeKey);
  const { title, tiers, source, currency: own } = RULES[regime.key];
  const foreign = currency !== undefined && own !== "" && currency !== own;
  const size = Math.abs(grossMinor);
  const tier = tiers.find((t) => t.upToMinor === null || (!foreign && size <= t.upToMinor)) as Tier;
  return { title, tier: tier.name, fields: tier.fields, source, note: regime.note };
}
