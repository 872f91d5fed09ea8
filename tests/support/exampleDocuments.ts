import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { REFERENCES, reference } from "./references";

/** Example invoices of the standards' publishers: CEN/TC 434 (EN 16931) and Peppol PINT A-NZ. */
export const EXAMPLES = ["en16931/examples", "pint-anz/examples"].flatMap((sub) => {
  const folder = reference(join("einvoice", sub));
  return folder === null ? [] : readdirSync(folder).map((name) => `${sub}/${name}`);
});

/** Just enough of XML: blocks by element, first text by element, attributes ignored. */
const blocks = (xml: string, name: string) =>
  [...xml.matchAll(new RegExp(`<cac:${name}>([\\s\\S]*?)</cac:${name}>`, "gu"))].map((m) => m[1] ?? "");
export const firstText = (xml: string, name: string) =>
  xml.match(new RegExp(`<cbc:${name}(?:\\s[^>]*)?>\\s*([^<]*?)\\s*<`, "u"))?.[1];
export const minorOf = (text: string | undefined) =>
  text === undefined ? 0 : Math.round(Number(text) * 100);
const isCharge = (xml: string) => ["true", "1"].includes(firstText(xml, "ChargeIndicator") ?? "");
const taxedAs = (xml: string, element: string) => {
  const block = blocks(xml, element)[0] ?? "";
  return {
    category: firstText(block, "ID") ?? "",
    rateBp: Math.round(Number(firstText(block, "Percent") ?? 0) * 100),
  };
};

/** An example document: its lines, what is on the whole of it, its taxes, and its totals as XML. */
export function readDocument(file: string) {
  const xml = readFileSync(join(REFERENCES, "einvoice", file), "utf8").replace(/<!--[\s\S]*?-->/gu, "");
  const kind = xml.includes("<cac:InvoiceLine>") ? "InvoiceLine" : "CreditNoteLine";
  const lineBlocks = blocks(xml, kind);
  const head = xml.slice(0, xml.indexOf(`<cac:${kind}>`));
  const lines = lineBlocks.map((block) => {
    const price = block.slice(block.indexOf("<cac:Price>"));
    const adjustments = blocks(block.slice(0, block.indexOf("<cac:Item>")), "AllowanceCharge");
    const of = (charge: boolean) =>
      adjustments
        .filter((a) => isCharge(a) === charge)
        .reduce((sum, a) => sum + minorOf(firstText(a, "Amount")), 0);
    const input = {
      quantity: firstText(block, "InvoicedQuantity") ?? firstText(block, "CreditedQuantity") ?? "1",
      price: firstText(price, "PriceAmount") ?? "0",
      baseQuantity: firstText(price, "BaseQuantity") ?? "1",
      allowancesMinor: of(false),
      chargesMinor: of(true),
    };
    return {
      input,
      printed: minorOf(firstText(block, "LineExtensionAmount")),
      ...taxedAs(block, "ClassifiedTaxCategory"),
    };
  });
  const documentLevel = blocks(head, "AllowanceCharge").map((block) => ({
    charge: isCharge(block),
    netMinor: minorOf(firstText(block, "Amount")),
    ...taxedAs(block, "TaxCategory"),
  }));
  const taxes = blocks(head, "TaxSubtotal").map((block) => ({
    ...taxedAs(block, "TaxCategory"),
    taxableMinor: minorOf(firstText(block, "TaxableAmount")),
    taxMinor: minorOf(firstText(block, "TaxAmount")),
  }));
  return {
    currency: firstText(head, "DocumentCurrencyCode") ?? "",
    lines,
    documentLevel,
    taxes,
    totals: blocks(head, "LegalMonetaryTotal")[0] ?? "",
  };
}
