/** An e-invoice's text, read just enough to hold it against its document: attributes ignored, amounts of two decimals in cents. */

const amounts = (xml: string, name: string): number[] =>
  [...xml.matchAll(new RegExp(`<cbc:${name}(?:\\s[^>]*)?>([^<]*)<`, "gu"))].map(([, text]) =>
    cents(text ?? ""),
  );

function cents(text: string): number {
  const found = /^(-?)(\d+)\.(\d\d)$/u.exec(text);
  if (!found) throw new Error(`"${text}" is no amount of two decimals.`);
  return Number(`${found[1]}${found[2]}${found[3]}`) || 0;
}

/** The amounts that an e-invoice says, in cents. */
export function amountsOf(xml: string) {
  const head = xml.slice(0, xml.search(/<cac:(?:Invoice|CreditNote)Line>/u));
  const total = head.slice(head.indexOf("<cac:LegalMonetaryTotal>"));
  const tax = head.slice(head.indexOf("<cac:TaxTotal>"), head.indexOf("<cac:LegalMonetaryTotal>"));
  const one = (name: string) => amounts(total, name)[0] ?? 0;
  const [whole = 0, ...groups] = amounts(tax, "TaxAmount");
  return {
    lines: amounts(xml.slice(head.length), "LineExtensionAmount"),
    lineSum: one("LineExtensionAmount"),
    allowances: one("AllowanceTotalAmount"),
    charges: one("ChargeTotalAmount"),
    net: one("TaxExclusiveAmount"),
    gross: one("TaxInclusiveAmount"),
    prepaid: one("PrepaidAmount"),
    rounding: one("PayableRoundingAmount"),
    due: one("PayableAmount"),
    tax: whole,
    taxes: amounts(tax, "TaxableAmount").map((taxable, at) => [taxable, groups[at] ?? 0] as const),
  };
}

/** The text with something changed; throws where it did not change. */
export function edited(xml: string, what: RegExp, to: string): string {
  const other = xml.replace(what, to);
  if (other === xml) throw new Error(`${what} is not there.`);
  return other;
}
