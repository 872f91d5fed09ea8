/** Languages that a customer can be spoken to in. */
export const LANGUAGES = ["en", "nb"] as const;
export type Language = (typeof LANGUAGES)[number];

/** What each is called in itself. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: "English", nb: "Norsk bokmål" };

/** The language of a locale: Bokmål where it is Norwegian, English elsewhere. */
export function languageOf(locale: string): Language {
  return /^(?:nb|nn|no)\b/iu.test(locale) ? "nb" : "en";
}

/**
 * The locale in which a customer is spoken to: the shop's own where they chose nothing or its language, else their language
 * with the shop's region, so that words are theirs and dates, decimals and money keep to the place. `chosen` is a
 * customer's language, empty where none was chosen.
 */
export function customerLocale(shopLocale: string, chosen: string): string {
  const language = languageOf(chosen || shopLocale);
  if (language === languageOf(shopLocale)) return shopLocale;
  const { region } = new Intl.Locale(shopLocale).maximize();
  return region ? `${language}-${region}` : language;
}
