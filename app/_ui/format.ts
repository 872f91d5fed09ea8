/** Making a format costs far more than using it: each is made once for its locale and look. */
function kept<F>(make: (locale: string, look: Intl.NumberFormatOptions & Intl.DateTimeFormatOptions) => F) {
  const made = new Map<string, F>();
  return (locale: string, look: Intl.NumberFormatOptions & Intl.DateTimeFormatOptions): F => {
    const key = `${locale}|${Object.entries(look).join("|")}`;
    const found = made.get(key) ?? make(locale, look);
    made.set(key, found);
    return found;
  };
}

export const numberFormat = kept((locale, look) => new Intl.NumberFormat(locale, look));
const dateFormat = kept((locale, look) => new Intl.DateTimeFormat(locale, look));

export const trueMinus = (parts: readonly Intl.NumberFormatPart[]): string =>
  parts.map((part) => (part.type === "minusSign" ? "−" : part.value)).join("");

/** A number by locale with fixed decimals where given. */
export function figureText(value: number, locale: string, decimals?: number): string {
  const fixed =
    decimals === undefined ? {} : { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
  // What rounds to nothing has no sign.
  return trueMinus(numberFormat(locale, { ...fixed, signDisplay: "negative" }).formatToParts(value));
}

export type DateLook = "short" | "long" | "weekday";

const DATE: Record<DateLook, Intl.DateTimeFormatOptions> = {
  short: { day: "numeric", month: "short", year: "numeric" },
  long: { day: "numeric", month: "long", year: "numeric" },
  weekday: { weekday: "long", day: "numeric", month: "long" },
};

/** A calendar date (2026-11-25) by locale; no zone moves it. */
export function dateText(date: string, locale: string, look: DateLook = "short"): string {
  return dateFormat(locale, { ...DATE[look], timeZone: "UTC" }).format(new Date(`${date}T00:00:00Z`));
}

export type InstantLook = "time" | "date" | "both";

const INSTANT: Record<InstantLook, Intl.DateTimeFormatOptions> = {
  time: { hour: "2-digit", minute: "2-digit", hourCycle: "h23" },
  date: DATE.short,
  both: { ...DATE.short, hour: "2-digit", minute: "2-digit", hourCycle: "h23" },
};

/** An instant (ISO, UTC) on the shop's clock. */
export function instantText(iso: string, locale: string, zone: string, look: InstantLook = "both"): string {
  return dateFormat(locale, { ...INSTANT[look], timeZone: zone }).format(new Date(iso));
}

/** Minutes as 45 min, 2 h, 2 h 19 min. */
export function minutesText(minutes: number, min: string, h: string): string {
  const hours = Math.floor(minutes / 60);
  const rest = Math.round(minutes - hours * 60);
  return [hours > 0 ? `${hours} ${h}` : "", rest > 0 || hours === 0 ? `${rest} ${min}` : ""]
    .filter(Boolean)
    .join(" ");
}
