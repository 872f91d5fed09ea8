import { Refusal } from "../refusal";
import type { RegimeKey } from "./regimes";

/** What a new shop in a country starts with; every value can be changed in the shop's settings. */
export interface CountryPreset {
  /** ISO 3166-1 alpha-2. */
  readonly country: string;
  readonly name: string;
  readonly currency: string;
  readonly taxRegime: RegimeKey;
  /** A rate to start from where the regime leaves it open, in basis points; null: must be entered. */
  readonly suggestedBp: number | null;
  /** IANA zone of the largest city. */
  readonly zone: string;
  /** BCP 47. */
  readonly locale: string;
  readonly units: "metric" | "uk" | "us";
  readonly pricesIncludeTax: boolean;
  readonly altitudeM: number;
  /** Smallest coin in minor units; 1 for none. */
  readonly cashRounding: number;
}

const preset = (
  country: string,
  name: string,
  currency: string,
  taxRegime: RegimeKey,
  suggestedBp: number | null,
  zone: string,
  locale: string,
  units: CountryPreset["units"],
  pricesIncludeTax: boolean,
  altitudeM: number,
  cashRounding: number,
): CountryPreset => ({
  country,
  name,
  currency,
  taxRegime,
  suggestedBp,
  zone,
  locale,
  units,
  pricesIncludeTax,
  altitudeM,
  cashRounding,
});

/**
 * Sources: ISO 3166-1 and 4217 codes, IANA zones; coins and standard rates from memory (central banks, national VAT
 * acts), as of 2026-11-01: confirm with your accountant. Altitudes are of the largest city, judgement.
 */
export const COUNTRY_PRESETS: readonly CountryPreset[] = [
  preset("AU", "Australia", "AUD", "au", null, "Australia/Sydney", "en-AU", "metric", true, 40, 5),
  preset("NZ", "New Zealand", "NZD", "nz", null, "Pacific/Auckland", "en-NZ", "metric", true, 30, 10),
  preset("NO", "Norway", "NOK", "no", null, "Europe/Oslo", "nb-NO", "metric", true, 20, 100),
  preset("GB", "United Kingdom", "GBP", "gb", null, "Europe/London", "en-GB", "uk", true, 30, 1),
  preset("IE", "Ireland", "EUR", "eu", 2300, "Europe/Dublin", "en-IE", "metric", true, 20, 5),
  preset("DE", "Germany", "EUR", "eu", 1900, "Europe/Berlin", "de-DE", "metric", true, 40, 1),
  preset("FR", "France", "EUR", "eu", 2000, "Europe/Paris", "fr-FR", "metric", true, 40, 1),
  preset("NL", "Netherlands", "EUR", "eu", 2100, "Europe/Amsterdam", "nl-NL", "metric", true, 0, 5),
  preset("SE", "Sweden", "SEK", "eu", 2500, "Europe/Stockholm", "sv-SE", "metric", true, 30, 100),
  preset("DK", "Denmark", "DKK", "eu", 2500, "Europe/Copenhagen", "da-DK", "metric", true, 10, 50),
  preset("FI", "Finland", "EUR", "eu", 2550, "Europe/Helsinki", "fi-FI", "metric", true, 20, 5),
  preset("CH", "Switzerland", "CHF", "entered", null, "Europe/Zurich", "de-CH", "metric", true, 410, 5),
  preset("US", "United States", "USD", "us", null, "America/New_York", "en-US", "us", false, 10, 1),
  preset("CA", "Canada", "CAD", "entered", null, "America/Toronto", "en-CA", "metric", false, 80, 5),
];

/** The preset of a country by its ISO 3166-1 code. Throws Refusal where there is none. */
export function countryPreset(country: string): CountryPreset {
  const found = COUNTRY_PRESETS.find((p) => p.country === country);
  if (!found)
    throw new Refusal(
      `There is no preset for "${country}".`,
      "Choose a country from the list and change what differs.",
    );
  return found;
}
