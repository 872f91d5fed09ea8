export type Theme = "day" | "night" | "auto";
export const THEMES: readonly Theme[] = ["day", "night", "auto"];

/** The look chosen in the `theme` cookie; anything else is auto. */
export function themeOf(cookie: string | undefined): Theme {
  return THEMES.find((theme) => theme === cookie) ?? "auto";
}
