import { sellerNumberRule } from "../tax/sellerNumber";

/** What a shop says of itself on every paper. */
export interface SenderSettings {
  readonly address: string;
  readonly phone: string;
  readonly email: string;
  readonly taxNumber: string;
  readonly taxRegime: string;
  readonly country: string;
}

/**
 * What the head of a shop's papers lacks, in words, in the order that it stands there; empty when whoever gets one knows whom it is from.
 * A number is missed where the regime taxes. What a document cannot be issued without is told by `missingFields`. Common practice, no source.
 */
export function senderGaps(shop: SenderSettings): string[] {
  // "ABN" stays as it is; "Organisation number" does not begin the sentence.
  const number = sellerNumberRule(shop.taxRegime, shop.country).name.replace(/^[A-Z](?=[a-z])/u, (first) =>
    first.toLowerCase(),
  );
  const said = [
    ["the address", shop.address],
    ["a phone number", shop.phone],
    ["a mail address", shop.email],
    [`the ${number}`, shop.taxRegime === "none" ? "not needed" : shop.taxNumber],
  ] as const;
  return said.flatMap(([what, text]) => (text.trim() === "" ? [what] : []));
}
