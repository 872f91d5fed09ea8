import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { placeOfZone } from "@/lib/domain/air/places";
import { countryPreset } from "@/lib/domain/tax/presets";

export interface NewShop {
  readonly name: string;
  /** ISO 3166-1 alpha-2 of a country preset. */
  readonly country: string;
  readonly altitudeM?: number;
  readonly zone?: string;
  /** Degrees; absent: of the city that names the time zone. */
  readonly latitude?: number;
  readonly longitude?: number;
}

const SOUTHERN = new Set(["AU", "NZ", "ZA", "AR", "CL", "UY"]);

/** Mondays to Fridays, a workshop day with a break: what a new person starts with. */
export const USUAL_HOURS = Object.fromEntries(
  ["1", "2", "3", "4", "5"].map((day) => [
    day,
    [
      { from: "08:00", to: "12:00" },
      { from: "12:30", to: "16:30" },
    ],
  ]),
);

/** Fills an empty shop database: settings from the country's preset, the owner as staff, one bay, a labour grade, markup. */
export async function prepareShop(shop: ShopHandle, input: NewShop): Promise<{ staffId: number }> {
  const preset = countryPreset(input.country);
  const zone = input.zone ?? preset.zone;
  const city = placeOfZone(zone);
  const latitude = input.latitude ?? city?.latitude ?? null;
  return shop.write(async (tx) => {
    await tx.settings.create({
      data: {
        id: 1,
        name: input.name,
        country: preset.country,
        currency: preset.currency,
        locale: preset.locale,
        zone,
        units: preset.units,
        altitudeM: input.altitudeM ?? preset.altitudeM,
        latitude,
        longitude: input.longitude ?? city?.longitude ?? null,
        latitudeSouth: latitude === null ? SOUTHERN.has(preset.country) : latitude < 0,
        taxRegime: preset.taxRegime,
        taxRateBp: preset.suggestedBp ?? 0,
        pricesIncludeTax: preset.pricesIncludeTax,
        cashRoundingMinor: preset.cashRounding,
      },
    });
    const staff = await tx.staff.create({
      data: { personId: shop.by.personId, name: shop.by.name, role: shop.by.role, hours: USUAL_HOURS },
    });
    await tx.bay.create({ data: { name: "Bay one" } });
    await tx.labourGrade.create({
      // What an hour costs is the shop's own to say: until then no quote goes out with it.
      data: {
        code: "workshop",
        name: "Workshop",
        ratePerHourMinor: 0,
        costPerHourMinor: 0,
        rateSet: false,
      },
    });
    for (const band of STARTING_BANDS) await tx.markupBand.create({ data: band });
    await audit(tx, shop, "opened", "shop", null, { name: input.name, country: preset.country });
    return { staffId: staff.id };
  });
}

/** Cheap parts carry more markup than dear ones: common practice, no source; every shop sets its own. */
const STARTING_BANDS = [
  { upToE4: 100_000, markupBp: 10_000 },
  { upToE4: 500_000, markupBp: 6_000 },
  { upToE4: null, markupBp: 3_500 },
];
