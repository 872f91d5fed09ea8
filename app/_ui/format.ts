/** Digits after the point of a currency, as the formats of the runtime know it. */
export function minorDigits(currency: string): number {
  return (
    new Intl.NumberFormat("en", { style: "currency", currency }).resolvedOptions().maximumFractionDigits ?? 2
  );
}

/** Integer minor units as an exact decimal text: -6195 with 2 digits is "-61.95". */
export function minorText(minor: number, digits: number): string {
  const all = String(Math.abs(minor)).padStart(digits + 1, "0");
  const whole = all.slice(0, all.length - digits);
  return `${minor < 0 ? "-" : ""}${whole}${digits > 0 ? `.${all.slice(-digits)}` : ""}`;
}

const trueMinus = (parts: readonly Intl.NumberFormatPart[]): string =>
  parts.map((part) => (part.type === "minusSign" ? "−" : part.value)).join("");

/** Money by locale, from minor units. The code is said only when asked for. */
export function moneyText(minor: number, currency: string, locale: string, code = false): string {
  const digits = minorDigits(currency);
  const format = new Intl.NumberFormat(locale, {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
    ...(code ? { style: "currency", currency, currencyDisplay: "code" } : {}),
  });
  return trueMinus(format.formatToParts(minorText(minor, digits) as Intl.StringNumericLiteral));
}

/** A number by locale with fixed decimals where given. */
export function figureText(value: number, locale: string, decimals?: number): string {
  const fixed =
    decimals === undefined ? {} : { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
  return trueMinus(new Intl.NumberFormat(locale, fixed).formatToParts(value));
}

export type DateLook = "short" | "long" | "weekday";

const DATE: Record<DateLook, Intl.DateTimeFormatOptions> = {
  short: { day: "numeric", month: "short", year: "numeric" },
  long: { day: "numeric", month: "long", year: "numeric" },
  weekday: { weekday: "long", day: "numeric", month: "long" },
};

/** A calendar date (2026-11-25) by locale; no zone moves it. */
export function dateText(date: string, locale: string, look: DateLook = "short"): string {
  return new Intl.DateTimeFormat(locale, { ...DATE[look], timeZone: "UTC" }).format(
    new Date(`${date}T00:00:00Z`),
  );
}

export type InstantLook = "time" | "date" | "both";

const INSTANT: Record<InstantLook, Intl.DateTimeFormatOptions> = {
  time: { hour: "2-digit", minute: "2-digit", hourCycle: "h23" },
  date: DATE.short,
  both: { ...DATE.short, hour: "2-digit", minute: "2-digit", hourCycle: "h23" },
};

/** An instant (ISO, UTC) on the shop's clock. */
export function instantText(iso: string, locale: string, zone: string, look: InstantLook = "both"): string {
  return new Intl.DateTimeFormat(locale, { ...INSTANT[look], timeZone: zone }).format(new Date(iso));
}

/** Minutes as 45 min, 2 h, 2 h 19 min. */
export function minutesText(minutes: number, min: string, h: string): string {
  const hours = Math.floor(minutes / 60);
  const rest = Math.round(minutes - hours * 60);
  return [hours > 0 ? `${hours} ${h}` : "", rest > 0 || hours === 0 ? `${rest} ${min}` : ""]
    .filter(Boolean)
    .join(" ");
}
