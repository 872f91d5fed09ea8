import type { ImportPartKind, ImportPartUnit } from "./words";

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
export type ImportPartRow = PriceRow &
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
  parts: ImportPartRow;
  prices: PriceRow;
}
