import type { BenchBike } from "@/lib/data/bikes/benchBike";
import type { DrawerFamily } from "@/lib/data/stock/drawer";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { type BenchQuery, fieldText } from "@/lib/schemas/bench";
import { RECOMMEND_FIELDS } from "@/lib/schemas/recommendFields";

/** What the page begins with: no change, typical air of this month where the shop is, the likely drawers. */
export function startOf(
  bike: BenchBike,
  families: readonly DrawerFamily[],
  home: { altitudeM: number; month: number; system: UnitSystem },
): BenchQuery {
  const settings = bike.carburettors[0]?.settings;
  const convention = bike.card.jetConvention?.value ?? "bore";
  return {
    from: "typical",
    altitude: fieldText(RECOMMEND_FIELDS.altitude, home.altitudeM, home.system),
    month: String(home.month),
    mainFamily:
      known(families, bike.drawers.main) ??
      likely(families, /main|hoved/i, settings?.mainJet?.value, convention),
    pilotFamily:
      known(families, bike.drawers.pilot) ??
      likely(families, /pilot|idle|tomgang/i, settings?.pilotJet?.value, convention),
  };
}

/** The drawer that the model card names, where there is one. */
const known = (families: readonly DrawerFamily[], name: string): string | undefined =>
  families.find((one) => one.family === name)?.family;

/** The family that probably holds this bike's jets: named so, numbered so, holding the size fitted. Source: judgement. */
function likely(
  families: readonly DrawerFamily[],
  named: RegExp,
  fitted: number | undefined,
  convention: string,
): string {
  const found = families.filter(
    (f) => named.test(f.family) && f.sizes.some((s) => (s.convention || convention) === convention),
  );
  return (
    (found.find((f) => f.sizes.some((s) => s.sizeMilli === (fitted ?? -1) * 1000)) ?? found[0])?.family ?? ""
  );
}
