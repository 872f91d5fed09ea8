import type { Einvoice, EinvoiceAdjustment, EinvoiceLine, TaxCode } from "@/lib/domain/einvoice/einvoice";
import { einvoiceOf } from "@/lib/domain/einvoice/fromPrinted";
import { askOf } from "@/lib/domain/invoices/paying";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { majorText } from "@/lib/domain/money/major";
import { Refusal } from "@/lib/domain/refusal";
import { paperWords } from "@/lib/words/papers";
import { dayText } from "./format";
import { type UblChildren, ublText } from "./ubl";
import { ublParty } from "./ublParty";

/** The e-invoice of a document in the words of its customer's language; null where it has none. Everything is in the value. */
function einvoiceFrom(doc: PrintedInvoice): Einvoice | null {
  const { said, job, quoteNo, payBy } = paperWords(doc.locale);
  return einvoiceOf(doc, {
    said,
    job,
    quote: quoteNo,
    terms: (dueOn) => [payBy(dayText(dueOn, doc.locale)), askOf(doc).note].filter(Boolean).join("\n"),
  });
}

/** A document's e-invoice as UBL 2.1 text. Throws Refusal where it has none. */
export function einvoiceXml(doc: PrintedInvoice): string {
  const einvoice = einvoiceFrom(doc);
  if (!einvoice)
    throw new Refusal(
      "There is no e-invoice of this document: e-invoices were off for its customer as it was issued.",
      "An issued document never changes. Send the PDF, or credit it and issue it anew.",
      {},
      "missing",
    );
  return ublText(einvoice.kind === "creditNote" ? "CreditNote" : "Invoice", documentOf(einvoice));
}

/** Children of the document in the order of its schema. */
function documentOf(doc: Einvoice): UblChildren {
  const credit = doc.kind === "creditNote";
  const { totals, currency } = doc;
  const amount = (minor: number) => ({ "@currencyID": currency, "#": majorText(minor, currency) });
  const unlessZero = (minor: number) => (minor === 0 ? undefined : amount(minor));
  return {
    "cbc:CustomizationID": doc.customization,
    "cbc:ProfileID": doc.process,
    "cbc:ID": doc.number,
    "cbc:IssueDate": doc.issuedOn,
    ...(credit
      ? { "cbc:CreditNoteTypeCode": "381" }
      : { "cbc:DueDate": doc.dueOn, "cbc:InvoiceTypeCode": "380" }),
    "cbc:Note": doc.note,
    "cbc:DocumentCurrencyCode": currency,
    "cbc:BuyerReference": doc.buyerReference,
    "cac:OrderReference": { "cbc:ID": doc.orderNumber },
    "cac:BillingReference": doc.credits
      ? {
          "cac:InvoiceDocumentReference": {
            "cbc:ID": doc.credits.number,
            "cbc:IssueDate": doc.credits.issuedOn,
          },
        }
      : undefined,
    "cac:AdditionalDocumentReference": doc.quotes.map(({ number, name }) => ({
      "cbc:ID": number,
      "cbc:DocumentDescription": name,
    })),
    "cac:AccountingSupplierParty": { "cac:Party": ublParty(doc.seller, doc) },
    "cac:AccountingCustomerParty": { "cac:Party": ublParty(doc.buyer, doc) },
    "cac:Delivery": { "cbc:ActualDeliveryDate": doc.deliveredOn },
    "cac:PaymentMeans": paymentMeans(doc),
    "cac:PaymentTerms": { "cbc:Note": doc.terms },
    "cac:AllowanceCharge": adjustments(doc.allowances, doc.charges, doc, true),
    "cac:TaxTotal": {
      "cbc:TaxAmount": amount(totals.taxMinor),
      "cac:TaxSubtotal": doc.taxes.map((tax) => ({
        "cbc:TaxableAmount": amount(tax.taxableMinor),
        "cbc:TaxAmount": amount(tax.taxMinor),
        "cac:TaxCategory": taxCategory(tax, doc.taxScheme, tax.reason),
      })),
    },
    "cac:LegalMonetaryTotal": {
      "cbc:LineExtensionAmount": amount(totals.lineSumMinor),
      "cbc:TaxExclusiveAmount": amount(totals.netMinor),
      "cbc:TaxInclusiveAmount": amount(totals.grossMinor),
      "cbc:AllowanceTotalAmount": unlessZero(totals.allowanceMinor),
      "cbc:ChargeTotalAmount": unlessZero(totals.chargeMinor),
      "cbc:PrepaidAmount": unlessZero(totals.prepaidMinor),
      "cbc:PayableRoundingAmount": unlessZero(totals.roundingMinor),
      "cbc:PayableAmount": amount(totals.dueMinor),
    },
    [credit ? "cac:CreditNoteLine" : "cac:InvoiceLine"]: doc.lines.map((line) => lineOf(line, doc)),
  };
}

function paymentMeans({ kind, payment, dueOn }: Einvoice): UblChildren | undefined {
  if (!payment) return undefined;
  const { code, reference, account } = payment;
  return {
    "cbc:PaymentMeansCode": code,
    "cbc:PaymentDueDate": kind === "creditNote" ? dueOn : undefined,
    "cbc:PaymentID": reference,
    "cac:PayeeFinancialAccount": account
      ? {
          "cbc:ID": account.id,
          "cbc:Name": account.name,
          "cac:FinancialInstitutionBranch": { "cbc:ID": account.branch },
        }
      : undefined,
  };
}

function lineOf(line: EinvoiceLine, doc: Einvoice): UblChildren {
  const { currency } = doc;
  return {
    "cbc:ID": line.id,
    "cbc:Note": line.note,
    [doc.kind === "creditNote" ? "cbc:CreditedQuantity" : "cbc:InvoicedQuantity"]: {
      "@unitCode": line.unit,
      "#": line.quantity,
    },
    "cbc:LineExtensionAmount": { "@currencyID": currency, "#": majorText(line.netMinor, currency) },
    "cac:AllowanceCharge": adjustments(line.allowances, line.charges, doc, false),
    "cac:Item": {
      "cbc:Name": line.name,
      "cac:ClassifiedTaxCategory": taxCategory(line, doc.taxScheme),
    },
    "cac:Price": {
      "cbc:PriceAmount": { "@currencyID": currency, "#": line.price },
      "cbc:BaseQuantity": line.baseQuantity ? { "@unitCode": line.unit, "#": line.baseQuantity } : undefined,
    },
  };
}

/** On the document each says its tax; on a line it has the line's. */
function adjustments(
  allowances: readonly EinvoiceAdjustment[],
  charges: readonly EinvoiceAdjustment[],
  { currency, taxScheme }: Einvoice,
  taxed: boolean,
): UblChildren[] {
  const one = (adjustment: EinvoiceAdjustment, charge: boolean): UblChildren => ({
    "cbc:ChargeIndicator": String(charge),
    "cbc:AllowanceChargeReason": adjustment.reason,
    "cbc:Amount": { "@currencyID": currency, "#": majorText(adjustment.amountMinor, currency) },
    "cac:TaxCategory": taxed ? taxCategory(adjustment, taxScheme) : undefined,
  });
  return [...allowances.map((row) => one(row, false)), ...charges.map((row) => one(row, true))];
}

const taxCategory = (tax: TaxCode, scheme: string, reason?: string): UblChildren => ({
  "cbc:ID": tax.category,
  "cbc:Percent": tax.percent ?? undefined,
  "cbc:TaxExemptionReason": reason,
  "cac:TaxScheme": { "cbc:ID": scheme },
});
