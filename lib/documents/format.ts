import { minorDigits } from "@/lib/domain/money/currency";
import { majorText } from "@/lib/domain/money/major";
import { priceText } from "@/lib/domain/money/scale";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { kit } from "@/lib/words/kit";
import { languageOf } from "@/lib/words/language";

/** An amount with the locale's marks and no currency sign: columns say the currency once. */
export function amountText(minor: number, currency: string, locale: string): string {
  const digits = minorDigits(currency);
  return new Intl.NumberFormat(locale, {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  }).format(majorText(minor, currency) as `${number}`);
}

/** A unit price, with as many decimals as it needs. */
export function unitPriceText(priceE4: number, currency: string, locale: string): string {
  const exact = priceText(priceE4, currency);
  const digits = exact.includes(".") ? exact.length - exact.indexOf(".") - 1 : 0;
  return new Intl.NumberFormat(locale, {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  }).format(exact as `${number}`);
}

export function numberText(value: number, locale: string, decimals?: number): string {
  const fixed =
    decimals === undefined
      ? { maximumFractionDigits: 3 }
      : { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
  return new Intl.NumberFormat(locale, fixed).format(value);
}

/** Kept kilometres as an odometer of that unit system shows them. */
export const distanceText = (km: number, units: string, locale: string): string =>
  `${numberText(shownDistance(km, units), locale)}\u00a0${distanceUnit(units)}`;

/**
 * A quantity in thousandths with its unit; a number of pieces stands alone. Work that is whole minutes is written in hours and
 * minutes: they times the rate are the line's amount to the cent, which thousandths of an hour are not.
 */
export function quantityText(milli: number, unit: string, locale: string): string {
  const minutes = Math.round((Math.abs(milli) * 60) / 1000);
  if (unit === "h" && Math.round((minutes * 1000) / 60) === Math.abs(milli))
    return `${milli < 0 ? "-" : ""}${minutesText(minutes, locale)}`;
  const figure = numberText(milli / 1000, locale);
  return unit === "each" ? figure : `${figure}\u00a0${unit}`;
}

/** A calendar day ("2026-11-25") as people of the locale write it. */
export function dayText(day: string, locale: string): string {
  return new Intl.DateTimeFormat(locale, {
    day: "numeric",
    month: "long",
    year: "numeric",
    timeZone: "UTC",
  }).format(new Date(`${day}T00:00:00Z`));
}

export function rateText(bp: number, locale: string): string {
  return `${numberText(bp / 100, locale)}\u00a0%`;
}

/** "1 h 30 min", by the locale's own signs. */
export function minutesText(minutes: number, locale: string): string {
  const h = hourSign(locale);
  const hours = Math.floor(minutes / 60);
  const rest = Math.round(minutes % 60);
  if (hours === 0) return `${rest}\u00a0min`;
  return rest === 0 ? `${hours}\u00a0${h}` : `${hours}\u00a0${h}\u00a0${rest}\u00a0min`;
}

/** The sign of an hour. */
export const hourSign = (locale: string): string => kit[languageOf(locale)].hours;

/** An instant on a clock, as people of the locale write day and time. */
export function instantText(iso: string, zone: string, locale: string): string {
  return new Intl.DateTimeFormat(locale, { dateStyle: "medium", timeStyle: "short", timeZone: zone }).format(
    new Date(iso),
  );
}
