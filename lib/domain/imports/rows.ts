import { Cells } from "./cells";
import { IMPORT_FIELDS } from "./fields";
import { mergeRows } from "./merge";
import type {
  FileRow,
  FileTerms,
  ImportNoun,
  Mapping,
  ReadFile,
  ReadRow,
  RowNote,
  RowProblem,
} from "./types";
import {
  CONVENTION_WAYS,
  type ImportPartKind,
  type ImportPartUnit,
  KIND_WAYS,
  TYPE_WAYS,
  UNIT_WAYS,
  YES_NO_WAYS,
} from "./words";

type Maybe<T> = { readonly [K in keyof T]?: T[K] | undefined };

export type CustomerRow = Maybe<{
  name: string;
  email: string;
  phone: string;
  address: string;
  business: boolean;
  taxNumber: string;
  notes: string;
}>;
export type BikeRow = Maybe<{
  customerKey: string;
  customerName: string;
  make: string;
  model: string;
  year: number;
  plate: string;
  frameNumber: string;
  colour: string;
  odometerKm: number;
  displacementCc: number;
  cylinders: number;
  carburettors: number;
  carburettorType: "constant vacuum" | "mechanical slide";
  notes: string;
}>;
export type PriceRow = Maybe<{ costE4: number; priceE4: number; supplier: string; supplierCode: string }>;
export type PartRow = PriceRow &
  Maybe<{
    name: string;
    kind: ImportPartKind;
    unit: ImportPartUnit;
    family: string;
    sizeMilli: number;
    convention: "bore" | "flow";
    bin: string;
    pointMilli: number;
    openingMilli: number;
  }>;

export interface RowsByNoun {
  customers: CustomerRow;
  bikes: BikeRow;
  parts: PartRow;
  prices: PriceRow;
}

/** One international mile is exactly 1.609344 km (1959 agreement). */
const KM_PER_MILE = 1.609344;

const MAIL = /^[^\s@,;]+@[^\s@,;]+\.[^\s@,;]+$/u;

function customer(cells: Cells): CustomerRow {
  const email = cells.text("email", 200);
  if (email && !MAIL.test(email))
    cells.refuse("email", "is no e-mail address", "Mend it, or leave the cell blank.");
  const business = cells.word("business", YES_NO_WAYS, "yes or no");
  return {
    name: cells.needed("name", 120, "name"),
    email,
    phone: cells.text("phone", 60),
    address: cells.text("address", 400),
    business: business && business === "yes",
    taxNumber: cells.text("taxNumber", 40),
    notes: cells.text("notes", 4000),
  };
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

function part(cells: Cells): PartRow {
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

const READERS: { readonly [N in ImportNoun]: (cells: Cells) => RowsByNoun[N] } = {
  customers: customer,
  bikes: bike,
  parts: part,
  prices: price,
};
const KEYS: Readonly<Record<ImportNoun, string>> = {
  customers: "importKey",
  bikes: "importKey",
  parts: "code",
  prices: "code",
};

/**
 * Reads the rows of a file by a mapping of fields to columns. Answers every row that is understood, every problem of
 * every row, and notes of what was done unasked; rows with one key are merged or refused (mergeRows). Pure.
 */
export function readRows<N extends ImportNoun>(
  noun: N,
  headings: readonly string[],
  rows: readonly FileRow[],
  mapping: Mapping,
  terms: FileTerms,
): ReadFile<RowsByNoun[N]> {
  const missing = IMPORT_FIELDS[noun].filter(
    (field) => field.needed && typeof mapping[field.key] !== "number",
  );
  if (missing.length > 0)
    return {
      rows: [],
      notes: [],
      problems: missing.map((field) => ({
        line: 1,
        column: "",
        value: "",
        wrong: `No column is chosen for ${field.name.toLowerCase()}`,
        remedy: "Choose the column it stands in.",
      })),
    };
  const understood: ReadRow<RowsByNoun[N]>[] = [];
  const problems: RowProblem[] = [];
  const notes: RowNote[] = [];
  for (const row of rows) {
    if (row.cells.every((cell) => cell.trim() === "")) continue;
    const cells = new Cells(row, headings, mapping, terms);
    if (row.cells.slice(headings.length).some((cell) => cell.trim() !== ""))
      cells.problems.push({
        line: row.line,
        column: "",
        value: "",
        wrong: `has ${row.cells.length} cells, and the heading ${headings.length}`,
        remedy: "Put quotes round a text that holds the separator.",
      });
    const key = cells.needed(
      KEYS[noun],
      noun === "parts" || noun === "prices" ? 60 : 80,
      noun === "parts" || noun === "prices" ? "code" : "key",
    );
    const values = READERS[noun](cells);
    notes.push(...cells.notes);
    if (cells.problems.length > 0 || key === undefined) problems.push(...cells.problems);
    else understood.push({ line: row.line, key, values });
  }
  const names = Object.fromEntries(IMPORT_FIELDS[noun].map((field) => [field.key, field.name.toLowerCase()]));
  return mergeRows({ rows: understood, problems, notes }, headings[mapping[KEYS[noun]] as number] ?? "", {
    ...names,
    odometerKm: "odometer",
  });
}
