import type { LineTax } from "./post";

/**
 * The Norwegian standard tax code of a sale, by its category (UNCL5305) and rate in basis points; "NA" for a rate that has none.
 * Source: Skatteetaten, Standard Tax Codes for SAF-T Financial: 3 regular rate, 31 middle, 32 raw fish, 33 low, 5 rate zero, 51
 * reverse charge, 52 export, 6 outside the Act. The rates (25, 15, 11.11 and 12 %) are of the yearly decision of the Storting, from
 * memory: confirm with your accountant.
 */
export function standardTaxCode({ category, rateBp }: Pick<LineTax, "category" | "rateBp">): string {
  if (rateBp !== 0) return RATES[rateBp] ?? "NA";
  return CATEGORIES[category] ?? "NA";
}

const RATES: Readonly<Record<number, string>> = { 2500: "3", 1500: "31", 1111: "32", 1200: "33" };
const CATEGORIES: Readonly<Record<string, string>> = {
  S: "5",
  Z: "5",
  AE: "51",
  G: "52",
  K: "52",
  E: "6",
  O: "6",
};
