import { Refusal } from "../refusal";
import { minorDigits } from "./currency";

/** `whole` with its last `places` digits behind a point: -1230 with 2 is "-12.30". */
export function pointed(whole: bigint, places: number): string {
  const size = String(whole < 0n ? -whole : whole).padStart(places + 1, "0");
  const at = size.length - places;
  return `${whole < 0n ? "-" : ""}${size.slice(0, at)}${places > 0 ? `.${size.slice(at)}` : ""}`;
}

/**
 * An amount in minor units as a decimal number in major units: "-12.30", for e-invoices, CSV and screens. Part of a minor unit is
 * rounded half away from zero. Throws Refusal for an unknown currency and for what is no finite number. It stands apart from the
 * arithmetic of `exact.ts`, which pages that only show amounts do not bring.
 */
export function majorText(minor: number, currency: string): string {
  const size = Math.round(Math.abs(minor || 0));
  if (size === Infinity) throw new Refusal("The amount is too large to write.", "Enter a smaller amount.");
  return pointed(BigInt(minor < 0 ? -size : size), minorDigits(currency));
}
