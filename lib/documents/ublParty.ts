import type { Einvoice, EinvoiceParty } from "@/lib/domain/einvoice/einvoice";
import type { SchemedId } from "@/lib/domain/invoices/printedEinvoice";
import type { UblChildren } from "./ubl";

type TaxSaid = Pick<Einvoice, "profile" | "taxScheme" | "taxes">;

/** BG-4 or BG-7: a seller or a buyer. */
export function ublParty(party: EinvoiceParty, doc: TaxSaid): UblChildren {
  return {
    "cbc:EndpointID": schemed(party.address),
    "cac:PartyName": { "cbc:Name": party.tradingName },
    "cac:PostalAddress": address(party),
    "cac:PartyTaxScheme": [
      taxScheme(party, doc),
      {
        "cbc:CompanyID": party.registered,
        "cac:TaxScheme": party.registered ? { "cbc:ID": "TAX" } : undefined,
      },
    ],
    "cac:PartyLegalEntity": {
      "cbc:RegistrationName": party.name,
      "cbc:CompanyID": schemed(party.register),
    },
    "cac:Contact": { "cbc:Telephone": party.phone, "cbc:ElectronicMail": party.email },
  };
}

const schemed = (of: SchemedId | null): UblChildren | undefined =>
  of ? { "@schemeID": of.scheme, "#": of.id } : undefined;

/**
 * Outside the tax's scope no number for VAT may be said (BR-O-02). Outside Europe a number without a country's code before it is no VAT
 * number (BR-CO-09): it stands as a tax registration (BT-32).
 */
function taxScheme(
  { taxId }: EinvoiceParty,
  { profile, taxScheme: scheme, taxes }: TaxSaid,
): UblChildren | undefined {
  if (taxId === "" || (scheme === "VAT" && taxes.some((tax) => tax.category === "O"))) return undefined;
  const asVat = profile !== "core" || /^[A-Z]{2}/u.test(taxId);
  return { "cbc:CompanyID": taxId, "cac:TaxScheme": { "cbc:ID": asVat ? scheme : "TAX" } };
}

/** As it was entered in its parts; else line by line as it was written. A country alone is no address. */
function address({ street, city, postcode, country, lines }: EinvoiceParty): UblChildren | undefined {
  const parts = [street, city, postcode].some((part) => part !== "");
  if (!parts && lines.length === 0) return undefined;
  const [first, second, ...rest] = parts ? [street] : lines;
  return {
    "cbc:StreetName": first,
    "cbc:AdditionalStreetName": second,
    "cbc:CityName": city,
    "cbc:PostalZone": postcode,
    "cac:AddressLine": { "cbc:Line": rest.join(", ") },
    "cac:Country": { "cbc:IdentificationCode": country },
  };
}
