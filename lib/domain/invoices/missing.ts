import { receiptRequirements } from "../tax/receipts";
import { type InvoiceField, invoiceRequirements } from "../tax/requirements";
import type { PrintedInvoice } from "./printed";

/** One thing a document must show and does not, with where it is entered. */
export interface Missing {
  readonly field: InvoiceField;
  readonly what: string;
  readonly remedy: string;
}

const SHOP = "Enter it under Shop.";
const CUSTOMER = "Enter it on the customer's page.";

/**
 * What a document lacks of what its tax regime asks at its total; empty when it may be issued. Title, number, dates,
 * quantities, prices and tax per rate are printed on every document, so only what people enter can be missing.
 * A name or a tax number is identity enough of a buyer (GST Act 1999 s 29-70(1)(c)(ix), from memory).
 * Source of the fields: lib/domain/tax/requirements.ts. Throws Refusal for an unknown regime.
 */
export function missingFields(doc: PrintedInvoice): Missing[] {
  const { seller, buyer } = doc;
  const filled: Partial<Record<InvoiceField, readonly [present: boolean, what: string, remedy: string]>> = {
    sellerName: [said(seller.legalName || seller.name), "the shop's name", SHOP],
    sellerAddress: [said(seller.address), "the shop's address", SHOP],
    sellerNumber: [said(seller.taxNumber), `the shop's ${seller.numberName}`, SHOP],
    buyerIdentity: [said(buyer.name) || said(buyer.taxNumber), "the customer's name or tax number", CUSTOMER],
    buyerAddress: [said(buyer.address), "the customer's address", CUSTOMER],
    description: [
      doc.lines.length > 0 && doc.lines.every((line) => said(line.name)),
      "what was done",
      "Choose the other basis.",
    ],
    supplyDate: [said(doc.supplyOn), "the day the work was done", "Finish the job."],
    dueDate: [said(doc.dueOn), "the day it is due", SHOP],
  };
  const rules = doc.kind === "receipt" ? receiptRequirements : invoiceRequirements;
  const { fields } = rules(doc.taxRegime, doc.grossMinor, doc.currency);
  return fields.flatMap((field) => {
    const found = filled[field];
    return !found || found[0] ? [] : [{ field, what: found[1], remedy: found[2] }];
  });
}

const said = (text: string) => text.trim() !== "";
