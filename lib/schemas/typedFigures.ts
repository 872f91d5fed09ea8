import { milliOf } from "./quantity";

/** What was typed, read; or what is wrong with it. Schemas and pages that reckon along read it in the same way. */
export type Typed<T> = { readonly value: T } | { readonly wrong: string };

const LONGEST = 40;

/** A quantity above 0, in thousandths. */
export function typedQuantity(text: string): Typed<number> {
  const milli = text.length > LONGEST ? null : milliOf(text);
  return milli !== null && milli > 0
    ? { value: milli }
    : { wrong: "Enter a number above 0, such as 3 or 12.5." };
}

/** A number of at most so many decimal places, times `scale`; null for a blank. `message` says what is wanted. */
export function typedScaled(
  text: string,
  { most, message, scale, places }: { most: number; message: string; scale: number; places: number },
): Typed<number | null> {
  const bare = text.trim();
  if (bare === "") return { value: null };
  const found =
    text.length > LONGEST ? null : new RegExp(`^(\\d{1,8})(?:[.,](\\d{1,${places}}))?$`).exec(bare);
  const value = found ? Number(found[1]) * scale + Number((found[2] ?? "").padEnd(places, "0")) : Number.NaN;
  return value <= most ? { value } : { wrong: message };
}

export const PRICE_E4 = {
  most: 1e11,
  message: "Enter an amount such as 4.80, or leave it empty.",
  scale: 10_000,
  places: 4,
};

/** A share in percent, as basis points; a blank is none. */
export function typedShare(text: string): Typed<number> {
  const bare = text.trim();
  if (bare === "") return { value: 0 };
  if (!/^\d{1,3}(?:[.,]\d{1,2})?$/.test(bare)) return { wrong: "Enter a share such as 10 or 7.5." };
  const bp = Math.round(Number(bare.replace(",", ".")) * 100);
  return bp > 10_000 ? { wrong: "At most 100 %." } : { value: bp };
}
