import type { SearchTable } from "@/lib/db/search";
import type { ImportNoun } from "@/lib/domain/imports/types";

/** So many rows leave enough behind in the search's index that it is put in order at once. */
export const MANY = 500;

export const FOUND_BY: Readonly<Record<ImportNoun, readonly SearchTable[]>> = {
  // A bike is found by its owner's name.
  customers: ["Customer", "Bike"],
  bikes: ["Bike"],
  parts: ["Part"],
  prices: [],
};
