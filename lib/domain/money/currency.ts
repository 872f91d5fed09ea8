import { Refusal } from "../refusal";

/**
 * Minor digits of currencies by ISO 4217 code.
 * Source: ISO 4217:2015 list one (SIX), from memory. Intl is not asked: its display digits differ from the standard.
 */
const MINOR_DIGITS: Readonly<Record<string, number>> = {
  AED: 2,
  ARS: 2,
  AUD: 2,
  BGN: 2,
  BHD: 3,
  BRL: 2,
  CAD: 2,
  CHF: 2,
  CLP: 0,
  CNY: 2,
  COP: 2,
  CRC: 2,
  CZK: 2,
  DKK: 2,
  EGP: 2,
  EUR: 2,
  FJD: 2,
  GBP: 2,
  HKD: 2,
  HUF: 2,
  IDR: 2,
  ILS: 2,
  INR: 2,
  IQD: 3,
  IRR: 2,
  ISK: 0,
  JOD: 3,
  JPY: 0,
  KES: 2,
  KRW: 0,
  KWD: 3,
  LKR: 2,
  LYD: 3,
  MAD: 2,
  MXN: 2,
  MYR: 2,
  NGN: 2,
  NOK: 2,
  NZD: 2,
  OMR: 3,
  PEN: 2,
  PGK: 2,
  PHP: 2,
  PKR: 2,
  PLN: 2,
  PYG: 0,
  QAR: 2,
  RON: 2,
  RSD: 2,
  SAR: 2,
  SEK: 2,
  SGD: 2,
  THB: 2,
  TND: 3,
  TRY: 2,
  TWD: 2,
  UAH: 2,
  UGX: 0,
  USD: 2,
  UYU: 2,
  VND: 0,
  VUV: 0,
  XAF: 0,
  XOF: 0,
  XPF: 0,
  ZAR: 2,
};

/** Codes of every currency known here, sorted. */
export const CURRENCIES: readonly string[] = Object.keys(MINOR_DIGITS);

/** Digits after the decimal mark of a currency: 2 for AUD, 0 for JPY, 3 for KWD. Throws Refusal for an unknown code. */
export function minorDigits(currency: string): number {
  const digits = Object.hasOwn(MINOR_DIGITS, currency) ? MINOR_DIGITS[currency] : undefined;
  if (digits === undefined) {
    throw new Refusal(
      `"${currency}" is no currency known here.`,
      "Choose a currency by its three-letter ISO 4217 code.",
    );
  }
  return digits;
}

/** Minor units in one major unit: 100 for AUD, 1 for JPY, 1000 for KWD. Throws Refusal for an unknown code. */
export function minorPerMajor(currency: string): number {
  return 10 ** minorDigits(currency);
}
