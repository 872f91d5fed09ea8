import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { proceduresFor } from "@/lib/domain/procedures/procedures";
import type { SheetValue } from "@/lib/domain/sheets/check";
import { SETTINGS, type SettingDef } from "@/lib/domain/tuning/settings";
import { shownUnit, type UnitSystem } from "@/lib/domain/units/systems";
import { temperatureUnit } from "@/lib/domain/units/temperature";
import { UNITS } from "@/lib/domain/units/units";
import { HowToMeasure } from "../../../_procedures/HowToMeasure";
import { settingText } from "../../settingText";
import { recordSheet } from "./actions";

export interface SheetFormProps {
  readonly shop: string;
  readonly bikeId: number;
  readonly jobId?: number | undefined;
  readonly kind: "asFound" | "asLeft";
  readonly carburettors: readonly { readonly position: number; readonly label: string }[];
  /** What the newest sheet says, to compare with while reading. */
  readonly last: readonly SheetValue[];
  readonly odometer: { readonly unit: string; readonly value: number | undefined };
  /** How the shop reads air. */
  readonly system: UnitSystem;
  readonly locale: string;
}

const HOWS = ["measured", "read", "assumed"].map((value) => ({ value, label: value }));
const YES_NO = [
  { value: "", label: "not looked at" },
  { value: "1", label: "yes" },
  { value: "0", label: "no" },
];

/** What stands on the bike now, per carburettor. A setting left blank is not known, and says nothing. */
export function SheetForm({
  shop,
  bikeId,
  jobId,
  kind,
  carburettors,
  last,
  odometer,
  system,
  locale,
}: SheetFormProps) {
  const degrees = temperatureUnit(system);
  const pressureUnit = shownUnit(system, "airPressure").unit;
  const hidden = {
    bikeId: String(bikeId),
    temperatureUnit: degrees,
    pressureUnit,
    ...(jobId ? { jobId: String(jobId) } : {}),
  };
  return (
    <Form action={recordSheet} shop={shop} hidden={hidden} label="Setting sheet" className="max-w-[900px]">
      <Section title="The sheet">
        <div className="grid gap-x-10 sm:grid-cols-2">
          <ChoiceField
            name="kind"
            label="This is the bike"
            initial={kind}
            options={[
              { value: "asFound", label: "as found", detail: "before anything is turned or changed" },
              { value: "asLeft", label: "as left", detail: "when it leaves your hands" },
            ]}
          />
          <NumberField
            name="odometerKm"
            label="Odometer"
            unit={odometer.unit}
            step={1}
            min={0}
            hint={odometer.value === undefined ? undefined : `${odometer.value} when last read`}
          />
        </div>
      </Section>
      {carburettors.map((carburettor) => (
        <Section key={carburettor.position} title={carburettor.label}>
          <div className="grid gap-x-8 md:grid-cols-2">
            {SETTINGS.map((def) => (
              <Setting
                key={def.key}
                shop={shop}
                def={def}
                place={`${carburettor.position}.${def.key}`}
                label={carburettors.length > 1 ? `${def.name}, ${carburettor.label}` : def.name}
                last={last.find(
                  (value) => value.carburettor === carburettor.position && value.setting === def.key,
                )}
                locale={locale}
              />
            ))}
          </div>
        </Section>
      ))}
      <Section title="The air it is set in">
        <div className="grid gap-x-8 sm:grid-cols-3">
          <NumberField
            name="temperature"
            label="Temperature"
            unit={UNITS[degrees].sign}
            hint="Blank: typical of the month."
          />
          <NumberField
            name="pressure"
            label="Station pressure"
            unit={UNITS[pressureUnit].sign}
            hint="As it stands there, not sea-level."
          />
          <NumberField name="humidityPercent" label="Humidity" unit="%" />
        </div>
      </Section>
      <TextArea
        name="note"
        label="Note"
        rows={3}
        hint="What the sheet does not say: wear, colour of the plug, odd parts."
      />
      <SubmitButton size="act">Record the sheet</SubmitButton>
    </Form>
  );
}

interface SettingProps {
  readonly shop: string;
  readonly def: SettingDef;
  readonly place: string;
  readonly label: string;
  readonly last: SheetValue | undefined;
  readonly locale: string;
}

/** A jet's number is read off it; most others are measured: the start of a choice that stays open. */
const usually = (key: string): string =>
  key === "mainJet" || key === "pilotJet" || key === "snorkelFitted" ? "read" : "measured";

function Setting({ shop, def, place, label, last, locale }: SettingProps) {
  const hint =
    last &&
    `${settingText({ setting: def.key, decimals: def.decimals, unit: def.unit }, last.value, locale)} on the newest sheet`;
  return (
    <div className="grid grid-cols-[minmax(0,1fr)_7.5rem] gap-3">
      {def.key === "snorkelFitted" ? (
        <SelectField name={`values.${place}`} label={label} options={YES_NO} hint={hint} />
      ) : (
        <NumberField
          name={`values.${place}`}
          label={label}
          unit={def.unit || undefined}
          step={def.step}
          decimals={def.decimals}
          min={def.low}
          max={def.high}
          hint={hint}
        />
      )}
      <SelectField
        name={`how.${place}`}
        label={
          <>
            <span className="sr-only">{label}, </span>Known
          </>
        }
        options={HOWS}
        initial={usually(def.key)}
      />
      <HowToMeasure slug={shop} procedures={proceduresFor([def.key])} of={label} />
    </div>
  );
}
