import type { BenchBike } from "@/lib/data/bikes/benchBike";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { type BenchQuery, fieldText } from "@/lib/schemas/bench";
import { BREATHING_FIELDS } from "@/lib/schemas/benchPartFields";

/** What the page begins with: the bike's breathing, usual measures where the card is silent, and an opening to try. */
export function breathingExample(bike: BenchBike | null, system: UnitSystem): BenchQuery {
  const card = bike?.card;
  const fitted = bike?.carburettors[0]?.settings;
  const weld = fitted?.headerWeldMm?.value ?? 3;
  const values: Partial<Record<keyof typeof BREATHING_FIELDS, number>> = {
    displacement: card?.displacementCc?.value ?? 640,
    carburettors: bike?.carburettors.length || 1,
    ratedRpm: card?.ratedRpm?.value ?? 6500,
    mainJet: fitted?.mainJet?.value ?? 140,
    snorkel: card?.snorkelMm?.value ?? 39,
    snorkelHole: card?.snorkelHoleMm?.value ?? 48,
    opening: fitted?.airboxOpeningMm?.value ?? 0,
    openingAfter: 48,
    header: card?.headerMm?.value ?? 38,
    weld,
    weldAfter: Math.max(1, weld - 1.5),
  };
  return {
    ...Object.fromEntries(
      Object.entries(values).map(([name, value]) => [
        name,
        fieldText(BREATHING_FIELDS[name as keyof typeof BREATHING_FIELDS], value, system),
      ]),
    ),
    type: card?.carburettorType?.value ?? "cv",
    convention: card?.jetConvention?.value ?? "bore",
    vented: card?.ventedTo?.value ?? "unknown",
    snorkelAfter: "in",
  };
}
