import { taxRegime } from "./rates";
import type { RegimeKey } from "./regimes";
import type { InvoiceField, InvoiceRequirements } from "./requirements";

interface ReceiptTier {
  /** Total with tax in minor units up to which it holds; null: always. */
  readonly upToMinor: number | null;
  readonly tier: string;
  readonly fields: readonly InvoiceField[];
}

interface ReceiptRule {
  readonly title: string;
  /** Limits are stated in this currency; a sale in another gets no receipt where there is a limit. */
  readonly currency: string;
  /** The smallest first; above the last one a receipt is not enough. */
  readonly tiers: readonly [...ReceiptTier[], ReceiptTier];
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

const always = (fields: readonly InvoiceField[]) =>
  [{ upToMinor: null, tier: "every sale", fields }] as const satisfies ReceiptRule["tiers"];

const RULES: Readonly<Record<RegimeKey, ReceiptRule>> = {
  au: {
    title: "Tax invoice",
    currency: "AUD",
    tiers: [
      {
        upToMinor: 8_250,
        tier: "up to 82.50 AUD: no tax invoice is needed",
        fields: [...SLIP, "sellerNumber"],
      },
      {
        upToMinor: 99_999,
        tier: "below 1,000 AUD: no buyer needed",
        fields: [...TAXED, "title", "taxedExtent"],
      },
    ],
    source:
      "GST Act 1999 s 29-70 as the Australian Taxation Office lists it (QC 43001); s 29-80, 75 AUD without GST, from memory",
  },
  nz: {
    title: "Receipt",
    currency: "NZD",
    tiers: [
      { upToMinor: 20_000, tier: "up to 200 NZD: no number and no tax needed", fields: SLIP },
      { upToMinor: 100_000, tier: "up to 1,000 NZD: no buyer needed", fields: TAXED },
    ],
    source: "Goods and Services Tax Act 1985, s 19E (what to state by size) and s 19K",
  },
  gb: {
    title: "VAT receipt",
    currency: "GBP",
    tiers: [
      {
        upToMinor: 25_000,
        tier: "simplified, up to 250 GBP",
        fields: [...TAXED, "sellerAddress", "supplyDate", "rates", "grossPerRate"],
      },
    ],
    source: "Value Added Tax Regulations 1995 (SI 1995/2518), reg 16A, legislation.gov.uk",
  },
  no: {
    title: "Salgskvittering",
    currency: "NOK",
    tiers: [
      {
        upToMinor: 4_000_000,
        tier: "cash sale, up to 40,000 NOK: no buyer needed",
        fields: [...TAXED, "supplyDate", "rates"],
      },
    ],
    source: "Bokføringsforskriften, delkapittel 5-3 (kontantsalg); from memory",
  },
  eu: {
    title: "Receipt",
    currency: "EUR",
    tiers: [{ upToMinor: 10_000, tier: "simplified, up to 100 EUR", fields: TAXED }],
    source: "Directive 2006/112/EC art. 220a and 226b; from memory",
  },
  us: {
    title: "Sales receipt",
    currency: "",
    tiers: always([...SLIP, "taxAmount"]),
    source: "Common practice: sales tax is stated apart; states differ",
  },
  entered: {
    title: "Receipt",
    currency: "",
    tiers: always([...TAXED, "rates"]),
    source: "Common practice",
  },
  none: {
    title: "Receipt",
    currency: "",
    tiers: always(SLIP),
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
  const last = rule.tiers.at(-1) as ReceiptTier;
  const size = Math.abs(grossMinor);
  const own = rule.currency === "" || currency === rule.currency;
  const found = own
    ? rule.tiers.find(({ upToMinor }) => upToMinor === null || size <= upToMinor)
    : last.upToMinor === null
      ? last
      : undefined;
  const { tier, fields } = found ?? last;
  return {
    title: rule.title,
    tier,
    fields,
    source: rule.source,
    note: regime.note,
    allowed: found !== undefined,
  };
}
