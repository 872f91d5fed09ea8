import { saveSettings } from "@/lib/data/quotes/switchTax";
import { saveAccount } from "@/lib/data/shop/account";
import { addBay, addDaysOff, saveHours, workingTimes } from "@/lib/data/shop/hours";
import { priceBook, saveBands, saveGrade } from "@/lib/data/shop/prices";
import type { ShopHandle } from "@/lib/db/shop";
import type { DaysOff, WeeklyHours } from "@/lib/domain/schedule/working";
import { AccountSchema } from "@/lib/schemas/account";
import { BandsSchema, HoursSchema, SettingsSchema } from "@/lib/schemas/shop";

const DAY = "08:00-12:00, 12:30-17:00";

export const HOURS: WeeklyHours = Object.fromEntries(
  [1, 2, 3, 4, 5].map((day) => [
    day,
    [
      { from: "08:00", to: "12:00" },
      { from: "12:30", to: "17:00" },
    ],
  ]),
);

/** Closed over the turn of the year, of every year the demo can touch. */
export function closures(now: Date): readonly (DaysOff & { why: string })[] {
  const year = now.getUTCFullYear();
  return [year - 3, year - 2, year - 1, year].map((each) => ({
    fromDay: `${each}-12-24`,
    toDay: `${each + 1}-01-04`,
    why: "Summer break",
  }));
}

const FORM = {
  version: "1",
  name: "Saltpan Carburettor Works",
  legalName: "Saltpan Carburettor Works Pty Ltd",
  // The example number in the ABN's published checksum description.
  taxNumber: "51 824 753 556",
  address: "14 Weighbridge Lane\nGantry Wells SA\nAustralia",
  phone: "08 7010 0014",
  email: "bench@saltpan.example",
  bankDetails: "Card and cash at the counter too.",
  documentNote:
    "Computed settings are a starting point. Bring the bike back within 500 km and we look at it once more, free.",
  locale: "en-AU",
  zone: "Australia/Adelaide",
  units: "metric",
  altitude: "410",
  benchTemperature: "20",
  taxRegime: "au",
  taxRateBp: "0",
  taxLabour: "on",
  taxParts: "on",
  pricesIncludeTax: "yes",
  quoteValidDays: "14",
  paymentDays: "7",
  depositBp: "25",
  minimumMarginBp: "38",
  sundriesBp: "3",
  cashRoundingMinor: "5",
  billingUnit: "tenths",
  followUpDays: "180",
  followUpDistance: "3000",
};

/** Made up: no bank has this BSB. */
const ACCOUNT = { form: "au", holder: "Saltpan Carburettor Works", branch: "999-410", number: "4100 0410" };

export async function setUpSaltpan(shop: ShopHandle, now: Date): Promise<void> {
  await saveSettings(shop, SettingsSchema.parse(FORM));
  await saveAccount(shop, AccountSchema.parse({ version: "0", ...ACCOUNT }));
  await addBay(shop, "Bay two");
  const { grades } = await priceBook(shop);
  const workshop = grades.find((grade) => grade.code === "workshop");
  await saveGrade(shop, {
    id: workshop?.id ?? null,
    version: 1,
    code: "workshop",
    name: "Workshop",
    ratePerHourMinor: 11_800,
    costPerHourMinor: 5_200,
  });
  await saveGrade(shop, {
    id: null,
    version: 1,
    code: "bench",
    name: "Carburettor bench",
    ratePerHourMinor: 13_200,
    costPerHourMinor: 5_900,
  });
  await saveGrade(shop, {
    id: null,
    version: 1,
    code: "fabrication",
    name: "Cutting and welding",
    ratePerHourMinor: 14_400,
    costPerHourMinor: 6_600,
  });
  await saveBands(shop, BandsSchema.parse({ bands: "10 = 100\n60 = 65\n250 = 45\nmore = 30" }).bands);
  const { staff } = await workingTimes(shop, "9999-12-31");
  const hours = { 1: DAY, 2: DAY, 3: DAY, 4: DAY, 5: DAY, 6: "", 7: "" };
  for (const { id, version } of staff)
    await saveHours(shop, HoursSchema.parse({ staffId: id, version, hours }));
  for (const closure of closures(now)) await addDaysOff(shop, { staffId: null, ...closure });
}
