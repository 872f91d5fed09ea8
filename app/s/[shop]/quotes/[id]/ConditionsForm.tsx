import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { SEASON_WORDS } from "@/lib/schemas/quoteWords";
import { saveConditions } from "../actions";
import type { ConditionsShown } from "./shown/conditions";

export interface ConditionsProps {
  slug: string;
  hidden: Readonly<Record<string, string>>;
  air: ConditionsShown;
}

/** The air that the settings are for. */
export function ConditionsForm({ slug, hidden, air }: ConditionsProps) {
  const { altitude, altitudeUnit, temperature, temperatureUnit, season, humidityPercent } = air;
  const bounds =
    altitudeUnit === "m" ? { step: 10, min: -400, max: 5000 } : { step: 50, min: -1312, max: 16404 };
  return (
    <Form
      // Each tick of the draft makes a version: what is half typed here stays until the air itself is another.
      key={JSON.stringify(air)}
      action={saveConditions}
      shop={slug}
      hidden={{ ...hidden, altitudeUnit, temperatureUnit }}
      label="Conditions"
      className="mt-3"
    >
      <div className="grid items-start gap-x-4 sm:grid-cols-2 2xl:grid-cols-4">
        <NumberField
          name="altitude"
          label="Altitude"
          unit={air.altitudeSign}
          initial={altitude}
          {...bounds}
          required
        />
        <SelectField
          name="season"
          label="Season"
          initial={season}
          options={Object.entries(SEASON_WORDS).map(([value, label]) => ({ value, label }))}
        />
        <NumberField
          name="temperature"
          label="Temperature"
          unit={air.temperatureSign}
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
  );
}
