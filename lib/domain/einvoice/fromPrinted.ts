import type { PrintedInvoice, PrintedLine } from "../invoices/printed";
import type { PrintedParty } from "../invoices/printedEinvoice";
import { type LineSaid, nameIn } from "../pricing/said";
import { adjusted } from "./adjusted";
import type { Einvoice, EinvoiceAdjustment, EinvoiceParty } from "./einvoice";
import { lineOf, taxCode } from "./line";
import { paymentOf } from "./payment";
import { PROFILES } from "./places";
import { totalsOf } from "./totals";

/** The words of the buyer's language that an e-invoice says. */
export interface EinvoiceWords {
  readonly said: Readonly<Record<LineSaid["what"], string>>;
  readonly job: string;
  readonly quote: string;
  /** By when to pay, and what the shop says besides. */
  readonly terms: (dueOn: string) => string;
}

/** Categories whose reason has to be said: BR-E-10, BR-O-10. */
const EXEMPT: readonly string[] = ["E", "O"];

/**
 * The e-invoice of a document, from its printed text alone; null for one that was issued without one (it says too little), and for a
 * receipt. Amounts are the document's own, to the cent; a credit note's are turned round: an electronic one says positive amounts.
 * Source: EN 16931-1. Throws an error where the document does not add up.
 */
export function einvoiceOf(doc: PrintedInvoice, words: EinvoiceWords): Einvoice | null {
  const { einvoice, kind, currency } = doc;
  if (!einvoice || kind === "receipt") return null;
  const sign = kind === "creditNote" ? -1 : 1;
  const parts = adjusted(doc.lines, sign);
  const totals = totalsOf(doc, parts, sign);
  const named = (line: PrintedLine) => nameIn(line, words.said);
  const adjustment = (line: PrintedLine): EinvoiceAdjustment => ({
    amountMinor: Math.abs(line.netMinor),
    reason: named(line),
    ...taxCode(line.taxCategory, line.taxRateBp),
  });
  const { customization, process, tax } = PROFILES[einvoice.profile];
  return {
    kind,
    profile: einvoice.profile,
    customization,
    process,
    taxScheme: tax,
    number: doc.written,
    issuedOn: doc.issuedOn,
    dueOn: doc.dueOn,
    note: [doc.credits?.reason ?? "", doc.note].filter((text) => text.trim() !== "").join("\n"),
    currency,
    buyerReference: einvoice.buyerReference,
    orderNumber: einvoice.orderNumber,
    quotes: doc.quotes.map((number) => ({ number, name: words.quote })),
    credits: doc.credits && { number: doc.credits.written, issuedOn: doc.credits.issuedOn },
    deliveredOn: doc.supplyOn,
    seller: sellerOf(doc, einvoice.seller),
    buyer: buyerOf(doc, einvoice.buyer),
    payment: paymentOf(doc, totals.dueMinor),
    terms: kind === "invoice" && totals.dueMinor > 0 ? words.terms(doc.dueOn) : "",
    allowances: parts.allowances.map(adjustment),
    charges: parts.charges.map(adjustment),
    taxes: doc.taxes.map((group) => ({
      ...taxCode(group.category, group.rateBp),
      taxableMinor: group.taxableMinor * sign || 0,
      taxMinor: group.taxMinor * sign || 0,
      reason: EXEMPT.includes(group.category) ? group.name : "",
    })),
    totals,
    lines: parts.lines.map(({ line, allowances }, at) => {
      const said = {
        name: named(line),
        note: jobOf(doc, line, words.job),
        allowances: allowances.map(adjustment),
      };
      return lineOf(line, { id: at + 1, ...said }, currency, sign);
    }),
  };
}

/** Which job a line is of, where there are several. */
function jobOf({ jobs }: PrintedInvoice, line: PrintedLine, word: string): string {
  const job = jobs.length > 1 ? jobs.find((one) => one.number === line.job) : undefined;
  return job ? `${word} ${job.number}: ${job.title}, ${job.bike.name}` : "";
}

function sellerOf({ seller }: PrintedInvoice, party: PrintedParty): EinvoiceParty {
  const name = seller.legalName || seller.name;
  return {
    ...party,
    name,
    tradingName: seller.name === name ? "" : seller.name,
    lines: addressLines(seller.address),
    phone: seller.phone,
    email: seller.email,
    // What stands after the number on paper but for MVA, which is part of the number here (Norway: Foretaksregisteret).
    registered: (seller.numberMarks ?? []).find((mark) => mark !== "MVA") ?? "",
  };
}

const buyerOf = ({ buyer }: PrintedInvoice, party: PrintedParty): EinvoiceParty => ({
  ...party,
  name: buyer.name,
  tradingName: "",
  lines: addressLines(buyer.address),
  phone: "",
  email: "",
  registered: "",
});

const addressLines = (address: string): string[] =>
  address
    .split(/\r?\n/u)
    .map((row) => row.trim())
    .filter((row) => row !== "");
