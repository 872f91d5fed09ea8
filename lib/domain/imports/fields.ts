import type { ImportNoun } from "./types";

export interface ImportField {
  readonly key: string;
  readonly name: string;
  /** Must be chosen and filled in every row. */
  readonly needed: boolean;
  /** Headings that mean this field, compared without marks, case and spaces. English, Norwegian, German: judgement. */
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
  "cost costprice buy buyprice net netprice purchase innpris kostpris einkauf ek",
  "What you pay, without tax",
);
const price = field(
  "priceE4",
  "Price",
  "price retail sell sellprice list listprice rrp utpris salgspris pris verkauf vk preis",
  "What you charge; blank: by your markup",
);
const supplier = field("supplier", "Supplier", "supplier vendor from maker leverandor lieferant");
const supplierCode = field(
  "supplierCode",
  "Supplier's code",
  "suppliercode supplierno supplierref vendorcode theircode ref bestillingsnummer artikelnummer",
);

/** What each kind of import can take, in the order the screen asks. */
export const IMPORT_FIELDS: Readonly<Record<ImportNoun, readonly ImportField[]>> = {
  customers: [
    needed(
      "importKey",
      "Key",
      "key id no number customerno customernumber customerid kundenr kundennummer",
      "A column that differs in every row and never changes",
    ),
    needed("name", "Name", "name customer customername fullname navn kunde kundenavn"),
    field("email", "E-mail", "email mail emailaddress epost"),
    field("phone", "Phone", "phone tel telephone mobile mob cell telefon mobil"),
    field("address", "Address", "address street postaladdress adresse anschrift"),
    field("business", "Business", "business company isbusiness firma bedrift", "yes or no"),
    field("taxNumber", "Tax number", "taxnumber taxno vat vatno abn orgnr orgnumber ustid"),
    field("notes", "Notes", "notes note remarks comment merknad notiz"),
  ],
  bikes: [
    needed(
      "importKey",
      "Key",
      "key id no number bikeno bikeid frame framenumber frameno vin chassis rammenummer",
      "A column that differs in every row and never changes",
    ),
    field(
      "customerKey",
      "Customer's key",
      "customerkey customerid customerno customernumber ownerid owner kundenr",
      "As imported with the customers",
    ),
    field(
      "customerName",
      "Customer's name",
      "customername customer ownername navn kunde",
      "Used where there is no key",
    ),
    needed("make", "Make", "make brand merke marke"),
    needed("model", "Model", "model modell type"),
    field("year", "Year", "year modelyear built arsmodell ar baujahr"),
    field("plate", "Plate", "plate rego registration reg regno skilt kennzeichen"),
    field("frameNumber", "Frame number", "framenumber frame frameno vin chassis rammenummer"),
    field("colour", "Colour", "colour color farge farbe"),
    field("odometer", "Odometer", "odometer odometerkm odo km mileage miles kmstand kilometer"),
    field(
      "displacementCc",
      "Displacement, cc",
      "displacement displacementcc cc ccm capacity slagvolum hubraum",
      "Only to make a card for a model you have none of",
    ),
    field("cylinders", "Cylinders", "cylinders cyl sylindre zylinder"),
    field("carburettors", "Carburettors", "carburettors carbs carburetors forgassere vergaser"),
    field(
      "carburettorType",
      "Carburettor type",
      "carburettortype carbtype vergasertyp",
      "constant vacuum, or mechanical slide",
    ),
    field("notes", "Notes", "notes note remarks comment merknad notiz"),
  ],
  parts: [
    needed(
      "code",
      "Code",
      "code partcode partno partnumber part sku item itemcode varenr nummer teilenummer",
    ),
    needed("name", "Name", "name description desc title text benevnelse beskrivelse bezeichnung"),
    field(
      "kind",
      "Kind",
      "kind type category group gruppe art",
      "jet, needle, spring, filter, screw, hose, seal, chemical or other",
    ),
    field("unit", "Unit", "unit uom per enhet einheit", "each, ml, mm or g; m, cm, l and kg are converted"),
    field("family", "Family", "family series drawer familie serie"),
    field("sizeMilli", "Size", "size nr dimension storrelse dim grosse"),
    field(
      "convention",
      "Jet numbers are",
      "convention numbering jetnumbers basis nummerering",
      "bore (1/100 mm) or flow",
    ),
    supplier,
    supplierCode,
    field("bin", "Bin", "bin shelf location place hylle lager lagerplatz"),
    cost,
    price,
    field("pointMilli", "Reorder point", "reorderpoint reorder point min minimum minstock bestillingspunkt"),
    field(
      "openingMilli",
      "Opening stock",
      "openingstock opening stock onhand qty quantity instock antall beholdning bestand",
      "Booked once, for parts that have no moves yet",
    ),
  ],
  prices: [
    needed(
      "code",
      "Code",
      "code partcode partno partnumber part sku item itemcode varenr nummer teilenummer",
    ),
    cost,
    price,
    supplier,
    supplierCode,
  ],
};
