import type { ShopHandle } from "@/lib/db/shop";
import type { Spot } from "@/lib/domain/air/climate";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { seasonRange } from "@/lib/domain/bench/seasonRange";
import { settingForTrip } from "@/lib/domain/bench/trip";
import type { TripAnswer, TripInput } from "@/lib/domain/bench/tripTypes";
import { Refusal } from "@/lib/domain/refusal";
import type { SheetValue } from "@/lib/domain/sheets/check";
import type { FoundCarburettor, JetConvention, JetOnHand } from "@/lib/domain/tuning/targetTypes";
import type { BenchValues } from "@/lib/schemas/bench";
import type { TRIP_FIELDS } from "@/lib/schemas/benchFields";
import type { BenchBike } from "../bikes/benchBike";
import { saveSheet } from "../bikes/sheets";
import { type DrawerFamily, listDrawer } from "../stock/drawer";

export type TripValues = BenchValues<typeof TRIP_FIELDS>;

/** The families of jets in the drawer. */
export async function jetFamilies(shop: ShopHandle): Promise<readonly DrawerFamily[]> {
  return (await listDrawer(shop)).filter((family) => family.kind === "jet");
}

/** The setting for a trip, from what was typed, the bike's card where one is chosen, and the drawer; `spot` makes the weather. Throws Refusal, OutOfRange. */
export function workTrip(
  values: TripValues,
  bike: BenchBike | null,
  families: readonly DrawerFamily[],
  spot: Spot,
): TripAnswer {
  const family = families.find((f) => f.family === values.mainFamily);
  const other = family?.sizes.every((s) => (s.convention || values.convention) !== values.convention);
  if (family && other)
    throw new Refusal(
      `${family.family} are numbered another way than the fitted jet.`,
      "Choose a drawer of the same numbering, or say how the fitted jet is numbered.",
      {
        mainFamily: "Numbered another way than the fitted jet.",
        convention: "Not how the chosen drawer is numbered.",
      },
    );
  return settingForTrip(tripInput(values, bike, family, spot));
}

function tripInput(
  v: TripValues,
  bike: BenchBike | null,
  family: DrawerFamily | undefined,
  spot: Spot,
): TripInput {
  const humidity = v.humidity === null ? null : v.humidity / 100;
  const typed = typedSettings(v);
  const highM = v.highAltitude ?? v.lowAltitude;
  const typical = seasonRange(v.season, spot, v.lowAltitude, highM);
  const found: readonly FoundCarburettor[] = bike?.carburettors ?? [{ name: "carburettor", settings: {} }];
  return {
    card: { ...bike?.card, jetConvention: { value: v.convention, how: "read" } },
    carburettors: found.map((c) => ({ ...c, settings: { ...c.settings, ...typed } })),
    here: placeAir({ altitudeM: v.hereAltitude, temperatureC: v.hereTemperature, humidity }),
    there: {
      lowM: v.lowAltitude,
      highM,
      coldC: v.coldest ?? typical.coldC,
      warmC: v.warmest ?? typical.warmC,
      humidity,
    },
    jets: jetsOf(family, v.convention),
    calibration: learned(bike, typed),
  };
}

/** What was learned of the bike; a reading of it counts as measured only while what was typed is what its sheet says. */
function learned(bike: BenchBike | null, typed: FoundCarburettor["settings"]): TripInput["calibration"] {
  const found = bike?.carburettors[0]?.settings;
  const same = (["mainJet", "pilotJet", "mixtureScrewTurns"] as const).every(
    (key) => typed[key] === undefined || typed[key].value === found?.[key]?.value,
  );
  return bike?.calibration?.regions.map((region) => (same ? region : { ...region, measured: false }));
}

/** What is fitted on the first carburettor: the bike's settings with what was typed over them. */
export function fittedOn(bike: BenchBike | null, v: TripValues): FoundCarburettor["settings"] {
  return { ...bike?.carburettors[0]?.settings, ...typedSettings(v) };
}

const typedSettings = (v: TripValues): FoundCarburettor["settings"] => ({
  mainJet: { value: v.mainJet, how: "read" },
  ...(v.pilotJet === null ? {} : { pilotJet: { value: v.pilotJet, how: "read" } }),
  ...(v.screw === null ? {} : { mixtureScrewTurns: { value: v.screw, how: "read" } }),
});

function jetsOf(family: DrawerFamily | undefined, usual: JetConvention): readonly JetOnHand[] {
  return (family?.sizes ?? []).map((s) => ({
    setting: "mainJet",
    convention: s.convention === "bore" || s.convention === "flow" ? s.convention : usual,
    size: s.sizeMilli / 1000,
    free: Math.floor(s.freeMilli / 1000),
    orderable: true,
  }));
}

/** Puts a trip's setting on the bike's target sheet, with all that stays as fitted; once per key. Answers the sheet's id. */
export async function saveTripSheet(
  shop: ShopHandle,
  bike: BenchBike,
  v: TripValues,
  trip: TripAnswer,
  key?: string,
): Promise<number> {
  const corner = trip.corners.find((c) => c.name === trip.chosen.worst);
  if (!corner) throw new Refusal("The trip has no worst corner.", "Compute it again.");
  const computed: Readonly<Record<string, number>> = {
    mainJet: trip.chosen.size,
    ...(trip.screw ? { mixtureScrewTurns: trip.screw.value } : {}),
  };
  const values = bike.carburettors.flatMap(({ position, settings }): SheetValue[] => [
    ...Object.entries({ ...settings, ...typedSettings(v) }).flatMap(([setting, known]) =>
      known && !(setting in computed)
        ? [{ carburettor: position, setting, value: known.value, how: known.how }]
        : [],
    ),
    ...Object.entries(computed).map(([setting, value]) => ({
      carburettor: position,
      setting,
      value,
      how: "computed",
    })),
  ]);
  return saveSheet(shop, {
    bikeId: bike.id,
    kind: "target",
    values,
    conditions: {
      altitudeM: corner.place.altitudeM,
      season: "spring",
      temperatureC: corner.place.temperatureC,
      humidityPercent: v.humidity,
    },
    calculation: JSON.parse(JSON.stringify({ from: "bench trip", values: v, trip })),
    note: `For a trip: ${trip.corners.map((c) => c.name).join("; ")}. Worst corner ${trip.chosen.worst}.`,
    key,
  });
}
