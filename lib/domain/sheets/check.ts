import { settingDef } from "../tuning/settings";

/** One value of a setting sheet, as the sheet keeps it. */
export interface SheetValue {
  readonly carburettor: number;
  readonly setting: string;
  readonly value: number;
  readonly how: string;
}

export type SheetKind = "asFound" | "target" | "asLeft";

const HOWS = ["measured", "read", "computed", "assumed"];
/** Settings that are counted, not measured. */
const COUNTED = new Set(["clipPosition", "liftHoleCount", "snorkelFitted"]);

/**
 * What is wrong with a sheet's values, by form field (`values.<carburettor>.<setting>`, `how.<...>`); empty when nothing is.
 * A value must be a known setting inside its limits, once per carburettor the bike has, with how it is known; what stands
 * on the bike as found was never computed.
 */
export function checkSheet(
  kind: SheetKind,
  values: readonly SheetValue[],
  carburettors: readonly { position: number; label: string }[],
): Record<string, string> {
  const wrong: Record<string, string> = {};
  const seen = new Set<string>();
  for (const { carburettor, setting, value, how } of values) {
    const place = `${carburettor}.${setting}`;
    const field = `values.${place}`;
    const def = settingDef(setting);
    const label = carburettors.find((each) => each.position === carburettor)?.label;
    if (!def) wrong[field] = `"${setting}" is no setting: leave it out.`;
    else if (label === undefined) wrong[field] = `The bike has no carburettor ${carburettor}.`;
    else if (seen.has(place)) wrong[field] = `${def.name}, ${label} stands twice: keep one.`;
    else if (!(value >= def.low && value <= def.high))
      wrong[field] =
        `${def.name}, ${label} is ${value}${unit(def.unit)}, outside ${def.low} to ${def.high}${unit(def.unit)}: enter one inside.`;
    else if (COUNTED.has(setting) && !Number.isInteger(value))
      wrong[field] = `${def.name}, ${label} is ${value}: enter a whole number.`;
    else if (!HOWS.includes(how) || (kind === "asFound" && how === "computed"))
      wrong[`how.${place}`] = `${def.name}, ${label}: say how it is known: measured, read or assumed.`;
    seen.add(place);
  }
  return wrong;
}

const unit = (text: string): string => (text ? ` ${text}` : "");
