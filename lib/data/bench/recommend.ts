import type { ShopHandle } from "@/lib/db/shop";
import type { Spot } from "@/lib/domain/air/climate";
import { seasonOf } from "@/lib/domain/air/conditions";
import { weatherSpot } from "@/lib/domain/air/places";
import { airWith } from "@/lib/domain/air/typed";
import { typicalWeather } from "@/lib/domain/air/typical";
import { type Air, airFromReading } from "@/lib/domain/air/weather";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { recommend } from "@/lib/domain/bench/recommend";
import type { NamedAir, Recommendation } from "@/lib/domain/bench/recommendTypes";
import { seasonRange } from "@/lib/domain/bench/seasonRange";
import { Refusal, within } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { USUAL_RATED_RPM } from "@/lib/domain/tuning/machine";
import type { ShimOnHand } from "@/lib/domain/tuning/needlePosition";
import { knownNeedle } from "@/lib/domain/tuning/needleRecord";
import { fillingOfText } from "@/lib/domain/tuning/pullText";
import type { SettingChange } from "@/lib/domain/tuning/settingChange";
import type { SettingKey } from "@/lib/domain/tuning/settings";
import type { JetOnHand } from "@/lib/domain/tuning/targetTypes";
import type { BenchValues } from "@/lib/schemas/bench";
import type { RECOMMEND_FIELDS } from "@/lib/schemas/recommendFields";
import type { BenchBike } from "../bikes/benchBike";
import { saveSheet } from "../bikes/sheets";
import type { Home } from "../common/air";
import type { DrawerFamily } from "../stock/drawer";
import type { NeedleOnHand } from "../stock/needles";

export type RecommendValues = BenchValues<typeof RECOMMEND_FIELDS>;

/** A bike's recommended setting after the changes asked, in the air or the range asked, from the drawers chosen, with the needles on hand tried. Throws Refusal, OutOfRange. */
export function workRecommendation(
  v: RecommendValues,
  bike: BenchBike,
  families: readonly DrawerFamily[],
  spot: Spot,
  shims: readonly ShimOnHand[],
  needles: readonly NeedleOnHand[] = [],
): Recommendation {
  if (bike.carburettors[0]?.settings.mainJet === undefined)
    throw new Refusal(
      "The main jet fitted is not known.",
      "Record the bike as found, or enter the delivered jets on its model card.",
    );
  const filling = fillingOfText(v.pull, bike.card.ratedRpm?.value ?? USUAL_RATED_RPM);
  const usual = bike.card.jetConvention?.value ?? "bore";
  const jets = (setting: "mainJet" | "pilotJet", name: string): JetOnHand[] =>
    (families.find((f) => f.family === name)?.sizes ?? []).map((s) => ({
      setting,
      convention: s.convention === "bore" || s.convention === "flow" ? s.convention : usual,
      size: s.sizeMilli / 1000,
      free: Math.max(0, Math.floor(s.freeMilli / 1000)),
      orderable: true,
    }));
  return recommend({
    card: filling ? { ...bike.card, filling } : bike.card,
    carburettors: bike.carburettors,
    changes: changesOf(
      v,
      bike.card.carburettorType?.value === "mechanical" &&
        bike.carburettors[0]?.settings.slideCutawayMm !== undefined,
    ),
    baseline: bike.baseline,
    airs: airsOf(v, spot),
    fuel: {
      now: {
        ...(v.fuel === "same" ? {} : { fuel: v.fuel }),
        ...(v.fuelTemperature === null ? {} : { fuelTemperatureK: v.fuelTemperature + 273.15 }),
      },
    },
    jets: [...jets("mainJet", v.mainFamily), ...jets("pilotJet", v.pilotFamily)],
    shims,
    needles: needles.flatMap(({ name, record }) => {
      const shape = knownNeedle(record, bike.card)?.value;
      return shape ? [{ name, shape }] : [];
    }),
    calibration: bike.calibration?.regions,
  });
}

const WORK: Readonly<Record<RecommendValues["work"], readonly SettingKey[]>> = {
  all: ["mainJet", "pilotJet", "clipPosition", "mixtureScrewTurns", "idleSpeedRpm"],
  mainScrew: ["mainJet", "mixtureScrewTurns"],
  main: ["mainJet"],
};

function changesOf(v: RecommendValues, mechanical: boolean): SettingChange[] {
  const set = (setting: SettingKey, value: number | null): SettingChange[] =>
    value === null ? [] : [{ setting, change: "set", value }];
  return [
    ...set("airboxOpeningMm", v.airbox),
    ...set("snorkelFitted", v.snorkel === "same" ? null : v.snorkel === "in" ? 1 : 0),
    ...set("headerWeldMm", v.weld),
    ...set("liftHoleCount", v.holes),
    ...set("liftHoleMm", v.hole),
    ...set("springLengthMm", v.spring),
    ...set("springCoils", v.coils),
    ...WORK[v.work].map((setting) => ({ setting, change: "computed" as const })),
    ...(v.work === "all" && mechanical ? [{ setting: "slideCutawayMm", change: "computed" as const }] : []),
  ];
}

function airsOf(v: RecommendValues, spot: Spot): readonly NamedAir[] {
  if (v.from === "range") return corners(v, spot);
  const air =
    v.from === "read"
      ? readAir(v)
      : airWith(typicalWeather(Number(v.month), spot, v.altitude), {
          pressurePa: v.station === null ? null : v.station * 100,
          temperatureC: v.temperature,
          humidity: v.humidity === null ? null : v.humidity / 100,
        });
  return [{ name: placeName(v.altitude, air), air }];
}

const placeName = (altitudeM: number, air: Air) =>
  `${Math.round(altitudeM)} m, ${Math.round(air.temperatureK - 273.15)} °C`;

function corners(v: RecommendValues, spot: Spot): readonly NamedAir[] {
  const high = within("highest altitude", v.highAltitude ?? v.altitude, v.altitude, 5000, "m");
  const typical = seasonRange(v.season, spot, v.altitude, high);
  const cold = v.coldest ?? typical.coldC;
  const warm = within("warmest temperature", v.warmest ?? typical.warmC, cold, 55, "C");
  const humidity = v.humidity === null ? null : v.humidity / 100;
  const found = new Map<string, NamedAir>();
  for (const altitudeM of [v.altitude, high])
    for (const temperatureC of [cold, warm]) {
      const air = placeAir({ altitudeM, temperatureC, humidity });
      found.set(placeName(altitudeM, air), { name: placeName(altitudeM, air), air });
    }
  return [...found.values()];
}

function readAir(v: RecommendValues): Air {
  if (v.temperature === null)
    throw new Refusal("No temperature is given.", "Enter the temperature of the air.", {
      temperature: "Enter the temperature.",
    });
  const humidity = v.humidity === null ? null : v.humidity / 100;
  if (v.station === null && v.qnh === null)
    return placeAir({ altitudeM: v.altitude, temperatureC: v.temperature, humidity });
  if (v.station !== null && v.qnh !== null)
    throw new Refusal("Both station pressure and QNH are given.", "Keep the one that was read.", {
      qnh: "Leave this or station pressure empty.",
    });
  return airFromReading({
    ...(v.station === null ? {} : { stationPa: v.station * 100 }),
    ...(v.qnh === null ? {} : { qnhPa: v.qnh * 100 }),
    altitudeM: v.altitude,
    temperatureC: v.temperature,
    humidity: humidity ?? 0.5,
  });
}

/** Puts a recommendation on the bike's target sheet, once per key, in the air of its worst corner; answers the sheet's id. */
export async function saveRecommendation(
  shop: ShopHandle & { readonly settings: Omit<Home, "altitudeM"> & { readonly zone: string } },
  bike: BenchBike,
  v: RecommendValues,
  { sheet, corners: outcome, worst }: Recommendation,
  key?: string,
): Promise<number> {
  const month =
    v.from === "typical" ? Number(v.month) : Number(dayIn(shop.settings.zone, shop.now).slice(5, 7));
  const altitudeM = Number.parseFloat(worst.name);
  return saveSheet(shop, {
    bikeId: bike.id,
    kind: "target",
    values: sheet.carburettors.flatMap(({ settings }, i) =>
      settings.map(({ key: setting, value, how }) => ({
        carburettor: bike.carburettors[i]?.position ?? i + 1,
        setting,
        value,
        how,
      })),
    ),
    conditions: {
      altitudeM,
      season: seasonOf(month, weatherSpot(shop.settings).latitude < 0),
      temperatureC: Math.round((worst.air.temperatureK - 273.15) * 10) / 10,
      humidityPercent: Math.round(worst.air.humidity * 100),
    },
    calculation: JSON.parse(JSON.stringify({ from: "recommendation", values: v, sheet, corners: outcome })),
    note:
      outcome.length > 1
        ? `Recommended for ${outcome.map((c) => c.name).join("; ")}. Worst corner ${worst.name}.`
        : `Recommended for ${worst.name}.`,
    key,
  });
}
