import { languageOf } from "./language";
import { setting } from "./setting";

/** What a setting is called in the reader's language; its key where the catalogue has none. */
export function settingName(key: string, locale: string): string {
  const names: Readonly<Record<string, string>> = setting[languageOf(locale)].name;
  return names[key] ?? key;
}

/** A setting's unit in the reader's language. */
export function settingUnit(unit: string, locale: string): string {
  const units: Readonly<Record<string, string>> = setting[languageOf(locale)].unit;
  return units[unit] ?? unit;
}
