import { createModelCard } from "@/lib/data/bikes/modelCards";
import { createPart } from "@/lib/data/parts/save";
import { saveSettings } from "@/lib/data/quotes/switchTax";
import { saveAccount } from "@/lib/data/shop/account";
import { priceBook, saveGrade } from "@/lib/data/shop/prices";
import { sayInCompanyRegister } from "@/lib/data/shop/taxTerms";
import type { ShopHandle } from "@/lib/db/shop";
import { AccountSchema } from "@/lib/schemas/account";
import { ModelCardSchema } from "@/lib/schemas/modelCards";
import { NewPartSchema } from "@/lib/schemas/parts";
import { SettingsSchema } from "@/lib/schemas/shop";
import type { DemoModel } from "../saltpan/models";

/** Made up, with a right check digit; its references are KIDs. */
const ACCOUNT = { form: "no", holder: "Fjellrev Motor AS", number: "9999 00 00014", kid: "on" };

const FORM = {
  version: "1",
  name: "Fjellrev Motor",
  legalName: "Fjellrev Motor AS",
  // Made up, of the kind set aside for tests, with a right check figure.
  taxNumber: "312345676",
  address: "Sagvegen 3\nRaukdalen\nNorge",
  phone: "000 00 064",
  email: "verksted@fjellrev.example",
  bankDetails: "Kort går også, på verkstedet.",
  documentNote:
    "Beregnede innstillinger er et utgangspunkt. Kom innom igjen innen 500 km, så ser vi på det uten betaling.",
  ownTerms: "Avbestiller du senest dagen før arbeidet begynner, koster det ingenting.",
  locale: "nb-NO",
  zone: "Europe/Oslo",
  units: "metric",
  altitude: "640",
  benchTemperature: "15",
  taxRegime: "no",
  taxRateBp: "25",
  taxLabour: "on",
  taxParts: "on",
  // Prices stand without tax here: the contrast to the other shop.
  pricesIncludeTax: "no",
  quoteValidDays: "21",
  paymentDays: "14",
  depositBp: "0",
  minimumMarginBp: "35",
  sundriesBp: "2",
  cashRoundingMinor: "100",
  billingUnit: "minutes",
  followUpDays: "240",
  followUpDistance: "4000",
};

const GROS = "Nordlys Deler";
const HALF = Array.from({ length: 17 }, (_, at) => 115 + at * 2.5);

const PARTS = [
  {
    code: "OR-40",
    name: "O-ring til flottørhus",
    kind: "seal",
    unit: "each",
    bin: "2",
    cost: "14",
    point: "6",
    opening: "20",
  },
  {
    code: "LF-400",
    name: "Luftfilter, Trail 400",
    kind: "filter",
    unit: "each",
    bin: "3",
    cost: "165",
    point: "2",
    opening: "4",
  },
  {
    code: "SKR-J4",
    name: "JIS krysskrue M4 x 12",
    kind: "screw",
    unit: "each",
    bin: "4",
    cost: "3.50",
    point: "20",
    opening: "80",
  },
  {
    code: "SLANGE-6",
    name: "Bensinslange 6 mm",
    kind: "hose",
    unit: "mm",
    bin: "5",
    cost: "0.085",
    point: "2000",
    opening: "6000",
  },
  {
    code: "GJENGELIM",
    name: "Gjengelim, middels",
    kind: "chemical",
    unit: "ml",
    bin: "6",
    cost: "9.50",
    point: "15",
    opening: "50",
  },
] as const;

export async function setUpFjellrev(shop: ShopHandle): Promise<void> {
  await saveSettings(shop, SettingsSchema.parse(FORM));
  await saveAccount(shop, AccountSchema.parse({ version: "0", ...ACCOUNT }));
  await sayInCompanyRegister(shop, true);
  const { grades } = await priceBook(shop);
  const first = grades.find((grade) => grade.code === "workshop");
  await saveGrade(shop, {
    id: first?.id ?? null,
    version: 1,
    code: "workshop",
    name: "Verksted",
    ratePerHourMinor: 98_000,
    costPerHourMinor: 46_000,
  });
  for (const part of PARTS)
    await createPart(shop, NewPartSchema.parse({ ...part, supplier: GROS, leadDays: "4" }));
  for (const [at, size] of HALF.entries())
    await createPart(
      shop,
      NewPartSchema.parse({
        code: `HD-${size}`,
        name: `Hoveddyse ${size}`,
        kind: "jet",
        unit: "each",
        family: "Hoveddyser, store runde",
        size: String(size),
        convention: "bore",
        supplier: GROS,
        bin: "1",
        leadDays: "4",
        cost: "38",
        point: at > 3 && at < 12 ? "1" : "",
        opening: String(1 + (at % 3)),
      }),
    );
}

/** The same models as elsewhere, as this shop knows them: its Trail 400 came to Norway with round jets. */
export async function northernCard(shop: ShopHandle, model: DemoModel): Promise<number> {
  const own = {
    ...model.facts,
    ...(model.key === "trail400" ? { jetConvention: ["bore", "read"] as const } : {}),
  };
  const facts = Object.fromEntries(
    Object.entries(own).map(([key, [value, how]]) => [key, { value: String(value), how, note: "" }]),
  );
  return createModelCard(shop, ModelCardSchema.parse({ ...model.core, notes: "", facts }));
}
