import type { QuotePage } from "@/lib/data/quotes/get";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { UNITS } from "@/lib/domain/units/units";
import { shownConditions } from "@/lib/schemas/quoteConditions";

/** The air that a draft's settings are for, as its form shows it. */
export function conditionsShown({ conditions }: QuotePage, system: UnitSystem) {
  const shown = shownConditions(conditions, system);
  return {
    ...shown,
    altitudeSign: UNITS[shown.altitudeUnit].sign,
    temperatureSign: UNITS[shown.temperatureUnit].sign,
    season: conditions.season,
    humidityPercent: conditions.humidityPercent,
  };
}

export type ConditionsShown = ReturnType<typeof conditionsShown>;
