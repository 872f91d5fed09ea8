import type { BenchBike } from "@/lib/data/bikes/benchBike";
import type { DrawerFamily } from "@/lib/data/stock/drawer";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { type BenchQuery, fieldText } from "@/lib/schemas/bench";
import { TRIP_FIELDS } from "@/lib/schemas/benchFields";

export interface TripStart {
  readonly bike: BenchBike | null;
  readonly families: readonly DrawerFamily[];
  readonly altitudeM: number;
  readonly temperatureC: number;
  readonly system: UnitSystem;
  readonly season: string;
}

/** What the page begins with: the bike's jets here, and a trip a thousand metres up in the season of today. */
export function tripExample({
  bike,
  families,
  altitudeM,
  temperatureC,
  system,
  season,
}: TripStart): BenchQuery {
  const fitted = bike?.carburettors[0]?.settings;
  const hereM = bike?.conditions?.altitudeM ?? altitudeM;
  const hereC = bike?.conditions?.temperatureC ?? temperatureC;
  const values: Partial<Record<keyof typeof TRIP_FIELDS, number | undefined>> = {
    mainJet: fitted?.mainJet?.value ?? (bike ? undefined : 140),
    pilotJet: fitted?.pilotJet?.value ?? (bike ? undefined : 45),
    screw: fitted?.mixtureScrewTurns?.value ?? (bike ? undefined : 1.5),
    hereAltitude: hereM,
    hereTemperature: hereC,
    lowAltitude: hereM,
    highAltitude: Math.min(5000, hereM + 1000),
  };
  return {
    ...Object.fromEntries(
      Object.entries(values).map(([name, value]) => [
        name,
        fieldText(TRIP_FIELDS[name as keyof typeof TRIP_FIELDS], value, system),
      ]),
    ),
    convention: bike?.card.jetConvention?.value ?? "bore",
    season,
    mainFamily:
      families.find((one) => one.family === bike?.drawers.main)?.family ??
      likelyFamily(families, fitted?.mainJet?.value, bike?.card.jetConvention?.value ?? "bore")?.family ??
      "",
  };
}

/** The family that probably holds this bike's main jets: named so, numbered so, and holding the size fitted. Source: judgement. */
function likelyFamily(
  families: readonly DrawerFamily[],
  fitted: number | undefined,
  convention: string,
): DrawerFamily | undefined {
  const main = families.filter(
    (f) => /main|hoved/i.test(f.family) && f.sizes.some((s) => s.convention === convention),
  );
  return main.find((f) => f.sizes.some((s) => s.sizeMilli === (fitted ?? -1) * 1000)) ?? main[0];
}
