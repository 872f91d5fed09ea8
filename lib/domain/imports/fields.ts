import type { ImportNoun } from "./types";

export interface ImportField {
  readonly key: string;
  readonly name: string;
  /** Must be chosen and filled in every row. */
  readonly needed: boolean;
  /** Headings that mean this field, compared without marks, case and spaces. English, Norwegian, German: common practice, no source. */
  readonly headings: readonly string[];
  readonly about?: string;
}

const field = (key: string, name: string, headings: string, about?: string): ImportField => ({
  key,
  name,
  needed: false,
  headings: headings.split(" "),
  ...(about ? { about } : {}),
});
const needed = (key: string, name: string, headings: string, about?: string): ImportField => ({
  ...field(key, name, headings, about),
  needed: true,
});

const cost = field(
  "costE4",
  "Cost",
  "cost costprice buy buyprice net netprice purchase innpris innkjopspris nettopris kostpris kost einkauf einkaufspreis ek",
  "What you pay, without tax",
);
const price = field(
  "priceE4",
  "Price",
  "price retail sell sellprice list listprice rrp utpris utsalgspris salgspris veilpris pris verkauf verkaufspreis vk preis",
  "What you charge; blank: by your markup",
);
const supplier = field(
  "supplier",
  "Supplier",
  "supplier vendor from maker leverandor leverandornavn lieferant hersteller",
);
const supplierCode = field(
  "supplierCode",
  "Supplier's code",
  "suppliercode supplierno supplierref vendorcode theircode ref bestillingsnummer bestillingsnr leverandornr leverandorensvarenr levnr artikelnummer bestellnummer",
);

/** What each kind of import can take, in the order the screen asks. */
export const IMPORT_FIELDS: Readonly<Record<ImportNoun, readonly ImportField[]>> = {
  customers: [
    needed(
      "importKey",
      "Key",
      "key id no number customerno customernumber customerid kundenr kundenummer knr kundennummer kundennr",
      "A column that differs in every row and never changes",
    ),
    needed(
      "name",
      "Name",
      "name customer customername fullname navn kunde kundenavn fornavn firstname givenname vorname kundenname",
    ),
    field(
      "lastName",
      "Last name",
      "lastname surname familyname etternavn nachname familienname",
      "Where first and last name stand apart: put behind the name",
    ),
    field("email", "E-mail", "email mail emailaddress epost epostadresse"),
    field(
      "phone",
      "Phone",
      "phone phonenumber tel tlf telephone mobile mob cell telefon telefonnr telefonnummer mobil mobilnr mobiltelefon mobilnummer telefonnummer handy",
    ),
    field(
      "address",
      "Address",
      "address street streetaddress address1 postaladdress adresse adresse1 gateadresse gate vei postadresse strasse anschrift",
    ),
    field("address2", "Address, second line", "address2 addressline2 adresse2 co suite zusatz"),
    field("postcode", "Postcode", "postcode postalcode zip zipcode postnr postnummer plz postleitzahl"),
    field("city", "Town", "city town suburb poststed sted by ort stadt"),
    field("region", "State", "state region province county fylke bundesland"),
    field("country", "Country", "country land"),
    field("business", "Business", "business company isbusiness firma bedrift", "yes or no"),
    field(
      "taxNumber",
      "Tax number",
      "taxnumber taxno vat vatno abn orgnr orgnumber organisasjonsnummer ustid",
    ),
    field("notes", "Notes", "notes note remarks comment merknad merknader notat kommentar notiz bemerkung"),
  ],
  bikes: [
    needed(
      "importKey",
      "Key",
      "key id no number bikeno bikeid frame framenumber frameno vin chassis rammenummer rammenr understellsnummer fahrgestellnummer",
      "A column that differs in every row and never changes",
    ),
    field(
      "customerKey",
      "Customer's key",
      "customerkey customerid customerno customernumber ownerid owner kundenr kundenummer kundennummer",
      "As imported with the customers",
    ),
    field(
      "customerName",
      "Customer's name",
      "customername customer ownername navn kunde kundenavn eier besitzer halter",
      "Used where there is no key",
    ),
    needed("make", "Make", "make brand merke fabrikat marke hersteller"),
    needed("model", "Model", "model modell type typ"),
    field("year", "Year", "year modelyear built arsmodell ar arsm baujahr"),
    field(
      "plate",
      "Plate",
      "plate rego registration reg regno regnr registreringsnummer kjennemerke skilt skiltnr kennzeichen",
    ),
    field(
      "frameNumber",
      "Frame number",
      "framenumber frame frameno vin chassis rammenummer rammenr understellsnummer fahrgestellnummer",
    ),
    field("colour", "Colour", "colour color farge farbe"),
    field(
      "odometer",
      "Odometer",
      "odometer odometerkm odo km mileage miles kmstand kilometerstand kilometer",
    ),
    field(
      "displacementCc",
      "Displacement, cc",
      "displacement displacementcc cc ccm capacity slagvolum kubikk volum hubraum",
      "Only to make a card for a model you have none of",
    ),
    field("cylinders", "Cylinders", "cylinders cyl sylindre antallsylindre zylinder"),
    field(
      "carburettors",
      "Carburettors",
      "carburettors carbs carburetors forgassere antallforgassere vergaser anzahlvergaser",
    ),
    field(
      "carburettorType",
      "Carburettor type",
      "carburettortype carbtype forgassertype forgasser vergasertyp vergaserart",
      "constant vacuum, or mechanical slide",
    ),
    field("notes", "Notes", "notes note remarks comment merknad merknader notat kommentar notiz bemerkung"),
  ],
  parts: [
    needed(
      "code",
      "Code",
      "code partcode partno partnumber part sku item itemcode varenr varenummer delenr delenummer artikkelnr artikkelnummer nummer teilenummer teilenr",
    ),
    needed(
      "name",
      "Name",
      "name description desc title text navn varenavn benevnelse beskrivelse tekst bezeichnung",
    ),
    field(
      "kind",
      "Kind",
      "kind type category group gruppe varegruppe kategori deltype art warengruppe",
      "jet, needle, spring, filter, screw, hose, seal, chemical or other",
    ),
    field(
      "unit",
      "Unit",
      "unit uom per enhet salgsenhet einheit",
      "each, ml, mm or g; m, cm, l and kg are converted",
    ),
    field("family", "Family", "family series drawer familie serie dysefamilie"),
    field("sizeMilli", "Size", "size nr dimension storrelse str dysestorrelse dim grosse"),
    field(
      "convention",
      "Jet numbers are",
      "convention numbering jetnumbers basis nummerering dysemal",
      "bore (1/100 mm) or flow",
    ),
    supplier,
    supplierCode,
    field("bin", "Bin", "bin shelf location place hylle skuff plassering lagerplass lager lagerplatz fach"),
    cost,
    price,
    field(
      "pointMilli",
      "Reorder point",
      "reorderpoint reorder point min minimum minstock bestillingspunkt minbeholdning mindestbestand",
    ),
    field(
      "openingMilli",
      "Opening stock",
      "openingstock opening stock onhand qty quantity instock antall beholdning pahlager bestand menge",
      "Booked once, for parts that have no moves yet",
    ),
  ],
  prices: [
    needed(
      "code",
      "Code",
      "code partcode partno partnumber part sku item itemcode varenr varenummer delenr delenummer artikkelnr artikkelnummer nummer teilenummer teilenr",
    ),
    cost,
    price,
    supplier,
    supplierCode,
  ],
};
