import { airOf, type Conditions } from "@/lib/domain/air/conditions";
import type { QuoteFacts, QuotePartRow } from "@/lib/domain/quoting/facts";
import { NO_TERMS } from "@/lib/domain/quoting/terms";
import { ROAD } from "../support/roadPackage";
import { AS_FOUND, DROVER } from "./tuning-demo";

export const HOME: Conditions = {
  altitudeM: 400,
  season: "spring",
  temperatureC: null,
  humidityPercent: null,
};

export function part(id: number, code: string, more: Partial<QuotePartRow>): QuotePartRow {
  return {
    id,
    code,
    name: code,
    kind: "filter",
    unit: "each",
    family: "",
    sizeMilli: null,
    convention: "",
    costE4: 100_000,
    priceE4: null,
    priceUntil: null,
    freeMilli: 4000,
    onOrderMilli: 0,
    coming: [],
    leadDays: 3,
    orderable: true,
    ...more,
  };
}

const jets = [130, 132.5, 135, 137.5, 140, 142.5, 145, 147.5, 150, 152.5, 155].map((size, at) =>
  part(100 + at, `RM-${size}`, {
    kind: "jet",
    family: "Round main",
    sizeMilli: size * 1000,
    convention: "bore",
  }),
);

/** A quote's facts of our own scenario: workshop work at 90.00 an hour, bench work at 120.00, no tax, nothing agreed. */
export const FACTS: QuoteFacts = {
  terms: {
    currency: "AUD",
    locale: "en-AU",
    zone: "Australia/Adelaide",
    altitudeM: 400,
    latitude: -35,
    taxRegime: "none",
    taxRateBp: 0,
    taxLabour: true,
    taxParts: true,
    pricesIncludeTax: false,
    sundriesBp: 0,
    sundriesMaxMinor: null,
    minimumMarginBp: 0,
    depositBp: 2_500,
  },
  grades: [
    { code: "workshop", name: "Workshop", ratePerHourMinor: 9_000, costPerHourMinor: 4_000 },
    { code: "bench", name: "Bench", ratePerHourMinor: 12_000, costPerHourMinor: 4_000 },
  ],
  bands: [{ upToE4: null, markupBp: 5_000 }],
  discountBp: 0,
  discountClass: "",
  priceBook: { roundDownToMinor: 0, pricesFrom: null, pricesUntil: null },
  agreed: NO_TERMS,
  validUntil: "2026-12-09",
  today: "2026-11-25",
  recipe: ROAD,
  choices: ["breather"],
  conditions: HOME,
  modelFacts: {},
  card: DROVER,
  carburettors: [{ name: "1", settings: AS_FOUND }],
  positions: [1],
  baseline: airOf(HOME, { latitude: -35 }),
  calibration: null,
  measured: true,
  parts: [part(1, "BF-20", {}), part(2, "TL-M", { unit: "ml", costE4: null, priceE4: 10_000 }), ...jets],
};
