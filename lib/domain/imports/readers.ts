import type { Cells } from "./cells";
import type { BikeRow, CustomerRow, ImportPartRow, PriceRow, RowsByNoun } from "./rowTypes";
import type { ImportNoun } from "./types";
import { CONVENTION_WAYS, KIND_WAYS, TYPE_WAYS, UNIT_WAYS, YES_NO_WAYS } from "./words";

/** One international mile is exactly 1.609344 km (1959 agreement). */
const KM_PER_MILE = 1.609344;

const MAIL = /^[^\s@,;]+@[^\s@,;]+\.[^\s@,;]+$/u;

function customer(cells: Cells): CustomerRow {
  const email = cells.text("email", 200);
  if (email && !MAIL.test(email))
    cells.refuse("email", "is no e-mail address", "Mend it, or leave the cell blank.");
  const business = cells.word("business", YES_NO_WAYS, "yes or no");
  return {
    name: fullName(cells),
    email,
    phone: cells.text("phone", 60),
    address: address(cells),
    business: business && business === "yes",
    taxNumber: cells.text("taxNumber", 40),
    notes: cells.text("notes", 4000),
  };
}

function fullName(cells: Cells): string | undefined {
  const [first, last] = [cells.raw("name"), cells.text("lastName", 120)];
  if (!last) return cells.needed("name", 120, "name");
  const name = [first, last].filter(Boolean).join(" ");
  return name.length > 120
    ? cells.refuse("lastName", "makes a name of more than 120 characters", "Shorten it.")
    : name;
}

/** One text of what stands in several columns: a state comes between town and postcode, else the postcode is first. */
function address(cells: Cells): string | undefined {
  const [street, second, postcode, city, region, country] = [
    cells.text("address", 400),
    cells.text("address2", 120),
    cells.text("postcode", 20),
    cells.text("city", 80),
    cells.text("region", 60),
    cells.text("country", 60),
  ];
  const town = (region ? [city, region, postcode] : [postcode, city]).filter(Boolean).join(" ");
  const whole = [street, second, town, country].filter(Boolean).join("\n");
  return whole.length > 400
    ? cells.refuse("address", "makes an address of more than 400 characters", "Shorten it.")
    : whole || undefined;
}

function bike(cells: Cells): BikeRow {
  const customerKey = cells.text("customerKey", 80);
  const customerName = cells.text("customerName", 120);
  if (!customerKey && !customerName)
    cells.refuse("customerKey", "names no customer", "Fill in the customer's key or name.");
  // Whole kilometres are kept; a reading in miles is rounded to the nearest.
  const inMiles = cells.terms.distance === "mi";
  const odometer = cells.number("odometer", { low: 0, high: inMiles ? 1_240_000 : 2_000_000 });
  return {
    customerKey,
    customerName,
    make: cells.needed("make", 60, "make"),
    model: cells.needed("model", 60, "model"),
    year: cells.number("year", { low: 1900, high: 2100 }),
    plate: cells.text("plate", 20),
    frameNumber: cells.text("frameNumber", 40),
    colour: cells.text("colour", 40),
    odometerKm: odometer === undefined || !inMiles ? odometer : Math.round(odometer * KM_PER_MILE),
    displacementCc: cells.number("displacementCc", { low: 20, high: 3000 }),
    cylinders: cells.number("cylinders", { low: 1, high: 6 }),
    carburettors: cells.number("carburettors", { low: 1, high: 4 }),
    carburettorType: cells.word("carburettorType", TYPE_WAYS, "constant vacuum or mechanical slide"),
    notes: cells.text("notes", 4000),
  };
}

function price(cells: Cells, per = 1): PriceRow {
  return {
    costE4: cells.money("costE4", per),
    priceE4: cells.money("priceE4", per),
    supplier: cells.text("supplier", 80),
    supplierCode: cells.text("supplierCode", 60),
  };
}

function part(cells: Cells): ImportPartRow {
  const said = cells.word("unit", UNIT_WAYS_TEXT, "each, ml, mm or g (m, cm, l and kg are converted)");
  const unit = said ? UNIT_WAYS[said] : undefined;
  const times = unit?.times ?? 1;
  const kind = cells.word(
    "kind",
    KIND_WAYS,
    "jet, needle, spring, filter, screw, hose, seal, chemical or other",
  );
  const convention = cells.word("convention", CONVENTION_WAYS, "bore or flow");
  if (convention && kind && kind !== "jet")
    cells.refuse("convention", `is given for a ${kind}, and only jets have one`, "Leave the cell blank.");
  const openingMilli = cells.number("openingMilli", { low: 0, high: 2_000_000, factor: 1000, times });
  if (openingMilli !== undefined && openingMilli % 1000 !== 0 && (unit?.unit ?? "each") === "each")
    cells.refuse(
      "openingMilli",
      "is a broken piece",
      "Write a whole number of pieces, or give the unit it is counted in.",
    );
  return {
    name: cells.needed("name", 160, "name"),
    kind,
    unit: unit?.unit,
    family: cells.text("family", 60),
    sizeMilli: cells.number("sizeMilli", { low: 0, high: 100_000, factor: 1000 }),
    convention,
    bin: cells.text("bin", 40),
    pointMilli: cells.number("pointMilli", { low: 0, high: 2_000_000, factor: 1000, times }),
    openingMilli,
    ...price(cells, times),
  };
}

const UNIT_WAYS_TEXT: Readonly<Record<string, string>> = Object.fromEntries(
  Object.keys(UNIT_WAYS).map((way) => [way, way]),
);

/** How each noun reads one row; problems and notes gather in the cells. */
export const READERS: { readonly [N in ImportNoun]: (cells: Cells) => RowsByNoun[N] } = {
  customers: customer,
  bikes: bike,
  parts: part,
  prices: price,
};
