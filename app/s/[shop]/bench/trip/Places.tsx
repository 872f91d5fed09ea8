import { type CalledOut, CarburettorSection } from "@/app/_ui/CarburettorSection";
import { figureText } from "@/app/_ui/format";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import type { TripAnswer } from "@/lib/domain/bench/tripTypes";
import { settingDef } from "@/lib/domain/tuning/settings";
import type { KnownSettings } from "@/lib/domain/tuning/targetTypes";

const PLACES: readonly CalledOut[] = [
  "mainJet",
  "pilotJet",
  "clipPosition",
  "mixtureScrewTurns",
  "floatHeightMm",
  "springLengthMm",
  "liftHoleMm",
  "airboxOpeningMm",
];

/** Where the trip's settings sit in the carburettor: what is changed opens to its reasons, the rest is as fitted. */
export function Places({
  trip,
  settings,
  locale,
}: {
  trip: TripAnswer;
  settings: KnownSettings;
  locale: string;
}) {
  const computed: Partial<Record<CalledOut, number>> = {
    mainJet: trip.chosen.size,
    ...(trip.screw ? { mixtureScrewTurns: trip.screw.value } : {}),
  };
  const calls = PLACES.flatMap((at) => {
    const def = settingDef(at);
    const fitted = settings[at]?.value;
    const value = computed[at] ?? fitted;
    if (!def || value === undefined) return [];
    const holes = at === "liftHoleMm" && settings.liftHoleCount ? `${settings.liftHoleCount.value} × ` : "";
    const text = `${holes}${figureText(value, locale)}${def.unit ? ` ${def.unit}` : ""}`;
    const because =
      at === "mainJet" ? trip.because : at === "mixtureScrewTurns" ? trip.screw?.because : undefined;
    const shown = because && computed[at] !== fitted && (
      <Opens name={def.name} because={because} firmness="starting point">
        {text}
      </Opens>
    );
    return [{ at, name: def.name, text, ...(shown ? { shown } : {}) }];
  });
  return (
    <Section title="Where they sit">
      <CarburettorSection title="Constant-vacuum carburettor in section" calls={calls} />
    </Section>
  );
}
