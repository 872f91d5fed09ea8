import type { PrintedInvoice } from "../invoices/printed";
import type { EinvoiceProfile, PrintedEinvoice, PrintedParty } from "../invoices/printedEinvoice";
import { minorDigits } from "../money/currency";
import { placeOf } from "./places";

/** Where a missing thing is entered. */
export type MendedAt = "shop" | "shopEinvoice" | "customer" | "customerEinvoice" | "draft" | "lines";

/** A rule that a document breaks as an e-invoice. */
export interface BrokenRule {
  /** The id of the rule in the profile's own check. */
  readonly rule: string;
  /** What is missing or wrong, as a sentence. */
  readonly what: string;
  readonly at: MendedAt;
}

interface Requirement {
  /** Rule ids by profile; a profile that does not ask for it has none. */
  readonly rules: Partial<Record<EinvoiceProfile, string>>;
  readonly what: (doc: PrintedInvoice, einvoice: PrintedEinvoice) => string;
  readonly at: MendedAt;
  readonly broken: (doc: PrintedInvoice, einvoice: PrintedEinvoice) => boolean;
}

const empty = (text: string) => text.trim() === "";
const numberName = (country: string) => placeOf(country)?.number ?? "registration number";
const european = (rule: string) => ({ core: rule, peppol: rule });
/** The same business rule is BR-06 in EN 16931 and ibr-006 in PINT. */
const everywhere = (rule: string) => ({ ...european(`BR-${rule}`), pint: `ibr-0${rule}` });

const noAddress = ({ street, city, postcode }: PrintedParty, written: string) =>
  empty(street) && empty(city) && empty(postcode) && empty(written);

const noVatNumber = (taxId: string) => !empty(taxId) && !/^[A-Z]{2}/u.test(taxId);

const hasTax = (doc: PrintedInvoice, wanted: string) => doc.taxes.some(({ category }) => category === wanted);

/** Without a number of the seller's in the tax's register: category by category, as EN 16931 states the rule. */
const sellerTax = (category: string): Requirement => ({
  rules: european(`BR-${category}-02`),
  what: ({ seller }) => `Your ${seller.numberName} is missing: tax is shown.`,
  at: "shop",
  broken: (doc, { seller }) => hasTax(doc, category) && empty(seller.taxId),
});

const inPint = (country: string, rule: string, party: "seller" | "buyer"): Requirement => ({
  rules: { pint: rule },
  what: () => `${party === "seller" ? "Your" : "The customer's"} ${numberName(country)} is missing or wrong.`,
  at: party === "seller" ? "shopEinvoice" : "customerEinvoice",
  broken: (_, einvoice) => einvoice[party].country === country && einvoice[party].register === null,
});

/**
 * What has to be there for an e-invoice, with the official rule that a document without it breaks.
 * Sources: EN 16931-1 (BR-…), PINT A-NZ 1.1.3 (ibr-…, aligned-…); Peppol BIS Billing 3 (PEPPOL-…) from memory. What the mapping
 * always writes right (sums, codes, prices) is not asked here.
 */
const REQUIREMENTS: readonly Requirement[] = [
  {
    rules: everywhere("06"),
    what: () => "The shop's name is missing.",
    at: "shop",
    broken: ({ seller }) => empty(seller.legalName || seller.name),
  },
  {
    rules: everywhere("07"),
    what: () => "The customer's name is missing.",
    at: "customer",
    broken: ({ buyer }) => empty(buyer.name),
  },
  {
    rules: everywhere("08"),
    what: () => "The shop's address is missing.",
    at: "shopEinvoice",
    broken: ({ seller }, einvoice) => noAddress(einvoice.seller, seller.address),
  },
  {
    rules: everywhere("10"),
    what: () => "The customer's address is missing.",
    at: "customerEinvoice",
    broken: ({ buyer }, einvoice) => noAddress(einvoice.buyer, buyer.address),
  },
  {
    rules: everywhere("11"),
    what: () => "The customer's country is missing.",
    at: "customerEinvoice",
    broken: ({ buyer }, einvoice) =>
      empty(einvoice.buyer.country) && !noAddress(einvoice.buyer, buyer.address),
  },
  {
    rules: everywhere("16"),
    what: () => "There is no line.",
    at: "lines",
    broken: ({ lines }) => lines.length === 0,
  },
  {
    rules: everywhere("25"),
    what: () => "A line has no name.",
    at: "lines",
    broken: ({ lines }) => lines.some((line) => line.kind !== "discount" && empty(line.name)),
  },
  {
    rules: { ...european("BR-CO-26"), pint: "ibr-co-26" },
    what: (_, { seller }) => `Your ${numberName(seller.country)} is missing.`,
    at: "shopEinvoice",
    broken: (doc, { seller, profile }) => seller.register === null && !toldByTax(doc, seller.taxId, profile),
  },
  {
    rules: { peppol: "BR-CO-09" },
    what: ({ seller }) => `Your ${seller.numberName} is no VAT number.`,
    at: "shop",
    broken: (doc, { seller }) => !hasTax(doc, "O") && noVatNumber(seller.taxId),
  },
  {
    rules: { peppol: "BR-CO-09" },
    what: () => "The customer's tax number is no VAT number: mend it, or leave it empty.",
    at: "customer",
    broken: (doc, { buyer }) => !hasTax(doc, "O") && noVatNumber(buyer.taxId),
  },
  sellerTax("S"),
  sellerTax("Z"),
  sellerTax("E"),
  inPint("AU", "aligned-ibr-001-aunz", "seller"),
  inPint("NZ", "aligned-ibr-002-aunz", "seller"),
  inPint("AU", "aligned-ibr-004-aunz", "buyer"),
  inPint("NZ", "aligned-ibr-005-aunz", "buyer"),
  {
    rules: { pint: "ibr-081", peppol: "PEPPOL-EN16931-R020" },
    what: () => "The shop has no electronic address.",
    at: "shopEinvoice",
    broken: (_, { seller }) => seller.address === null,
  },
  {
    rules: { pint: "ibr-080", peppol: "PEPPOL-EN16931-R010" },
    what: () => "The customer has no electronic address.",
    at: "customerEinvoice",
    broken: (_, { buyer }) => buyer.address === null,
  },
  {
    rules: { pint: "aligned-ibrp-003", peppol: "PEPPOL-EN16931-R003" },
    what: () => "The customer's order number is missing, or the reference that they want on every invoice.",
    at: "draft",
    broken: (_, { buyerReference, orderNumber }) => empty(buyerReference) && empty(orderNumber),
  },
  {
    rules: { ...european("BR-O-11"), pint: "aligned-ibrp-o-11-aunz" },
    what: () =>
      "A line outside the tax's scope stands among taxed ones: invoice it apart, or mark it exempt.",
    at: "lines",
    broken: (doc) => hasTax(doc, "O") && doc.taxes.length > 1,
  },
  {
    rules: { ...european("BR-DEC-14"), pint: "ibr-125" },
    what: ({ currency }) => `Amounts of an e-invoice have at most two decimals; ${currency} has more.`,
    at: "customerEinvoice",
    broken: ({ currency }) => minorDigits(currency) > 2,
  },
];

/** The tax number tells who the seller is; for VAT only with its country before it, and not outside the scope (BR-O-02, BR-CO-09). */
const toldByTax = (doc: PrintedInvoice, taxId: string, profile: EinvoiceProfile) =>
  profile === "pint" ? !empty(taxId) : !hasTax(doc, "O") && /^[A-Z]{2}/u.test(taxId);

/** The rules that a document would break as an e-invoice; none for one that is to have none. */
export function brokenRules(doc: PrintedInvoice): BrokenRule[] {
  const { einvoice } = doc;
  if (!einvoice) return [];
  return REQUIREMENTS.flatMap(({ rules, what, at, broken }) => {
    const rule = rules[einvoice.profile];
    // Over the counter there is no draft to enter an order number on.
    const mended = doc.basis === "counter" && at === "draft" ? "customerEinvoice" : at;
    return rule && broken(doc, einvoice) ? [{ rule, what: what(doc, einvoice), at: mended }] : [];
  });
}
