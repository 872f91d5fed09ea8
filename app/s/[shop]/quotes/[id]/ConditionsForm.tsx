import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { QuotePage } from "@/lib/data/quotes/get";
import { SEASONS } from "@/lib/domain/air/conditions";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { UNITS } from "@/lib/domain/units/units";
import { shownConditions } from "@/lib/schemas/quoteConditions";
import { SEASON_WORDS } from "@/lib/schemas/quoteWords";
import { saveConditions } from "../actions";

/** The air that the settings are for, behind one line. */
export function ConditionsForm({
  slug,
  quote,
  mayWrite,
  system,
}: {
  slug: string;
  quote: QuotePage;
  mayWrite: boolean;
  system: UnitSystem;
}) {
  if (!mayWrite) return null;
  const { season, humidityPercent } = quote.conditions;
  const { altitude, altitudeUnit, temperature, temperatureUnit } = shownConditions(quote.conditions, system);
  const { id, version } = quote;
  const bounds =
    altitudeUnit === "m" ? { step: 10, min: -400, max: 5000 } : { step: 50, min: -1312, max: 16404 };
  return (
    <details className="mb-6 text-[15px] print:hidden">
      <summary className="inline-flex min-h-6 items-center font-semibold text-brass underline underline-offset-[5px] pointer-coarse:min-h-12">
        Where and when it is ridden
      </summary>
      <Form
        key={quote.version}
        action={saveConditions}
        shop={slug}
        hidden={{ id: String(id), version: String(version), altitudeUnit, temperatureUnit }}
        label="Conditions"
        className="mt-3"
      >
        <div className="grid items-start gap-x-4 sm:grid-cols-2 2xl:grid-cols-4">
          <NumberField
            name="altitude"
            label="Altitude"
            unit={UNITS[altitudeUnit].sign}
            initial={altitude}
            {...bounds}
            required
          />
          <SelectField
            name="season"
            label="Season"
            initial={season}
            options={SEASONS.map((s) => ({ value: s, label: SEASON_WORDS[s] }))}
          />
          <NumberField
            name="temperature"
            label="Temperature"
            unit={UNITS[temperatureUnit].sign}
            initial={temperature ?? undefined}
            step={1}
            hint="Empty: typical"
          />
          <NumberField
            name="humidityPercent"
            label="Humidity"
            unit="%"
            initial={humidityPercent ?? undefined}
            step={5}
            hint="Empty: typical"
          />
        </div>
        <SubmitButton tone="second">Compute for this air</SubmitButton>
      </Form>
    </details>
  );
}
