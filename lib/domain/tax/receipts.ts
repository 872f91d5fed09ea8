import { taxRegime } from "./rates";
import type { RegimeKey } from "./regimes";
import type { InvoiceField, InvoiceRequirements } from "./requirements";

interface ReceiptRule {
  readonly title: string;
  /** The limit is stated in this currency; a sale in another gets no receipt where there is a limit. */
  readonly currency: string;
  /** Total with tax in minor units up to which a receipt is enough; null: always. */
  readonly upToMinor: number | null;
  readonly tier: string;
  readonly fields: readonly InvoiceField[];
  readonly source: string;
}

const SLIP: readonly InvoiceField[] = [
  "number",
  "issueDate",
  "sellerName",
  "description",
  "quantity",
  "gross",
];
const TAXED: readonly InvoiceField[] = [...SLIP, "sellerNumber", "taxAmount"];

const RULES: Readonly<Record<RegimeKey, ReceiptRule>> = {
  au: {
    title: "Tax invoice",
    currency: "AUD",
    upToMinor: 99_999,
    tier: "below 1,000 AUD: no buyer needed",
    fields: [...TAXED, "title", "taxedExtent"],
    source: "GST Act 1999 s 29-70; from memory",
  },
  nz: {
    title: "Receipt",
    currency: "NZD",
    upToMinor: 100_000,
    tier: "up to 1,000 NZD: no buyer needed",
    fields: TAXED,
    source: "Goods and Services Tax Act 1985, s 19K; from memory",
  },
  gb: {
    title: "VAT receipt",
    currency: "GBP",
    upToMinor: 25_000,
    tier: "simplified, up to 250 GBP",
    fields: [...TAXED, "sellerAddress", "supplyDate", "rates"],
    source: "Value Added Tax Regulations 1995, reg 16; from memory",
  },
  no: {
    title: "Salgskvittering",
    currency: "NOK",
    upToMinor: 4_000_000,
    tier: "cash sale, up to 40,000 NOK: no buyer needed",
    fields: [...TAXED, "supplyDate", "rates"],
    source: "Bokføringsforskriften, delkapittel 5-3 (kontantsalg); from memory",
  },
  eu: {
    title: "Receipt",
    currency: "EUR",
    upToMinor: 10_000,
    tier: "simplified, up to 100 EUR",
    fields: TAXED,
    source: "Directive 2006/112/EC art. 220a and 226b; from memory",
  },
  us: {
    title: "Sales receipt",
    currency: "",
    upToMinor: null,
    tier: "every sale",
    fields: [...SLIP, "taxAmount"],
    source: "Common practice: sales tax is stated apart; states differ",
  },
  entered: {
    title: "Receipt",
    currency: "",
    upToMinor: null,
    tier: "every sale",
    fields: [...TAXED, "rates"],
    source: "Common practice",
  },
  none: {
    title: "Receipt",
    currency: "",
    upToMinor: null,
    tier: "every sale",
    fields: SLIP,
    source: "Common practice; a seller who is not registered must not show tax",
  },
};

/** What a receipt must carry, or that the sale is too dear for one; then only a full invoice to a named buyer will do. */
export type ReceiptRequirements = InvoiceRequirements & { readonly allowed: boolean };

/**
 * What a counter sale's receipt must carry at a total with tax (minor units), and whether the regime lets a receipt without a
 * buyer stand for an invoice at that total. In another currency than the limit's it does not. Throws Refusal for an unknown regime.
 */
export function receiptRequirements(
  regimeKey: string,
  grossMinor: number,
  currency: string,
): ReceiptRequirements {
  const regime = taxRegime(regimeKey);
  const rule = RULES[regime.key];
  const { upToMinor } = rule;
  return {
    title: rule.title,
    tier: rule.tier,
    fields: rule.fields,
    source: rule.source,
    note: regime.note,
    allowed: upToMinor === null || (currency === rule.currency && Math.abs(grossMinor) <= upToMinor),
  };
}
