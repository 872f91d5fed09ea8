import type { Choice } from "@/app/_ui/SelectField";
import { COUNTRY_PRESETS } from "@/lib/domain/tax/presets";

const LANGUAGES = new Intl.DisplayNames(["en"], { type: "language", languageDisplay: "standard" });

/** Languages with their country's formats, the shop's own among them. */
export function localeChoices(own: string): readonly Choice[] {
  const locales = new Set([...COUNTRY_PRESETS.map((preset) => preset.locale), own]);
  return [...locales]
    .map((locale) => ({ value: locale, label: LANGUAGES.of(locale) ?? locale }))
    .sort((a, b) => a.label.localeCompare(b.label, "en"));
}
