import type { ImportNoun } from "@/lib/domain/imports/types";

export const NOUN_WORDS: Readonly<
  Record<ImportNoun, { readonly name: string; readonly about: string; readonly to: string }>
> = {
  customers: {
    name: "Customers",
    about: "Names, e-mail, phone, address. Bring these in first.",
    to: "customers",
  },
  bikes: {
    name: "Bikes",
    about: "Each belongs to a customer; models without a card get a small one.",
    to: "bikes",
  },
  parts: {
    name: "Parts",
    about: "Jets, needles, hoses, screws: sizes, bins, costs, and opening stock once.",
    to: "stock",
  },
  prices: {
    name: "Prices",
    about: "New costs and prices for parts you have, from a supplier's list.",
    to: "stock",
  },
};
