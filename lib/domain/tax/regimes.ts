/** Kinds of line that can be taxed differently; a discount follows the lines it is taken off. */
export type TaxedKind = "labour" | "part" | "fixed" | "sundries" | "outside";
export type RegimeKey = "au" | "nz" | "gb" | "no" | "eu" | "us" | "entered" | "none";

/** How sales are taxed in a country: data with its source, to be confirmed by the shop's accountant. */
export interface TaxRegime {
  readonly key: RegimeKey;
  readonly name: string;
  /** What the tax is called on a document. */
  readonly taxName: string;
  /** Standard rate in basis points; null: the shop enters it. */
  readonly standardBp: number | null;
  /** True where the shop marks which kinds of line are taxed. */
  readonly flagged: boolean;
  /** What the shop's own number is called. */
  readonly numberName: string;
  readonly source: string;
  /** When the data was last looked at. */
  readonly asOf: string;
  readonly note: string;
}

const CONFIRM = "Confirm with your accountant.";

const regime = (
  key: RegimeKey,
  name: string,
  taxName: string,
  standardBp: number | null,
  flagged: boolean,
  numberName: string,
  source: string,
  note = "",
): TaxRegime => ({
  key,
  name,
  taxName,
  standardBp,
  flagged,
  numberName,
  source,
  asOf: "2026-11-01",
  note: note ? `${note} ${CONFIRM}` : CONFIRM,
});

export const TAX_REGIMES: readonly TaxRegime[] = [
  regime(
    "au",
    "Australia: GST",
    "GST",
    1000,
    false,
    "ABN",
    "A New Tax System (Goods and Services Tax) Act 1999, s 9-70 and s 9-90",
  ),
  regime(
    "nz",
    "New Zealand: GST",
    "GST",
    1500,
    false,
    "GST number",
    "Goods and Services Tax Act 1985, s 8 and s 19O",
  ),
  regime(
    "gb",
    "United Kingdom: VAT",
    "VAT",
    2000,
    false,
    "VAT Reg No",
    "Value Added Tax Act 1994, s 2; Value Added Tax Regulations 1995, reg 14",
  ),
  regime(
    "no",
    "Norway: MVA",
    "MVA",
    2500,
    false,
    "Organisation number",
    "Merverdiavgiftsloven (2009) § 5-1 and the yearly decision of the Storting; not checked against the published text",
  ),
  regime(
    "eu",
    "European Union: VAT, rate entered",
    "VAT",
    null,
    false,
    "VAT number",
    "Council Directive 2006/112/EC, art. 96 and 226",
    "Enter the standard rate of your country.",
  ),
  regime(
    "us",
    "United States: sales tax, rate entered",
    "Sales tax",
    null,
    true,
    "Seller's permit",
    "State law; for example California Code of Regulations title 18, reg. 1546 (repair labour) against Tennessee Code 67-6-205",
    "Enter state and local rates added together and mark which lines are taxed.",
  ),
  regime(
    "entered",
    "Another country: one rate, entered",
    "Tax",
    null,
    true,
    "Tax number",
    "Entered by the shop",
    "Two taxes on one sale are entered as one combined rate.",
  ),
  regime(
    "none",
    "No tax charged",
    "No tax",
    0,
    false,
    "Business number",
    "Entered by the shop: not registered",
    "Documents must not call themselves tax invoices.",
  ),
];
