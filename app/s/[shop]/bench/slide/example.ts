import type { BenchBike } from "@/lib/data/bikes/benchBike";
import { springOnBike } from "@/lib/domain/bench/springOnBike";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { type BenchQuery, fieldText } from "@/lib/schemas/bench";
import { SLIDE_FIELDS } from "@/lib/schemas/benchPartFields";

/** What the page begins with: the bike's spring and holes, usual ones where the card is silent, and a first step of change. */
export function slideExample(bike: BenchBike | null, system: UnitSystem): BenchQuery {
  const card = bike?.card;
  const [first] = bike?.carburettors ?? [];
  const fitted = first?.settings;
  const spring = bike && first ? springOnBike(bike.card, first) : null;
  const values: Partial<Record<keyof typeof SLIDE_FIELDS, number>> = {
    ...(typeof spring?.rateNPerM === "number" ? { rate: spring.rateNPerM } : { wire: 1.2, coil: 22 }),
    coils: spring?.coils ?? 20,
    free: spring?.freeMm ?? 106,
    installed: card?.springInstalledMm?.value ?? 74,
    ...(card?.innerSpringRateNPerM && card.innerSpringFreeMm
      ? { innerRate: card.innerSpringRateNPerM.value, innerFree: card.innerSpringFreeMm.value }
      : {}),
    bore: card?.boreMm?.value ?? 38,
    diaphragm: card?.diaphragmMm?.value ?? 65,
    mass: card?.slideMassG?.value ?? 42,
    holes: fitted?.liftHoleCount?.value || 1,
    hole: fitted?.liftHoleMm?.value ?? 2.4,
    holesAfter: 2,
    holeAfter: fitted?.liftHoleMm?.value ?? 2.4,
    depression: 3000,
  };
  return Object.fromEntries(
    Object.entries(values).map(([name, value]) => [
      name,
      fieldText(SLIDE_FIELDS[name as keyof typeof SLIDE_FIELDS], value, system),
    ]),
  );
}
