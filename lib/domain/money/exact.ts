import { Refusal } from "../refusal";

/** An exact fraction, `over / under`; `under` is above zero. */
export interface Fraction {
  readonly over: bigint;
  readonly under: bigint;
}

/** What can be reckoned with exactly: a number or a text counts as the decimal that it is written as. */
export type Numeric = number | bigint | string | Fraction | { toFixed(): string };

/** No number has a larger one. */
const MOST_POWER = 330;

const DECIMAL = /^([+-]?)(\d*)\.?(\d*)(?:e([+-]?\d+))?$/iu;

export function tooLarge(value: Numeric): Refusal {
  const text = typeof value === "object" && "over" in value ? value.over / value.under : value;
  return new Refusal(
    `The amount ${String(text)} is too large to keep to the cent.`,
    "Check the quantity and the price.",
  );
}

/** A value as an exact fraction. Throws Refusal for what is no finite number. */
export function exactly(value: Numeric): Fraction {
  if (typeof value === "bigint") return { over: value, under: 1n };
  if (typeof value === "number")
    return Number.isSafeInteger(value) ? { over: BigInt(value), under: 1n } : read(value);
  return typeof value === "object" && "over" in value ? value : read(value);
}

function read(value: Exclude<Numeric, bigint | Fraction>): Fraction {
  const text = typeof value === "object" ? value.toFixed() : String(value);
  const [, sign = "", whole = "", part = "", power = "0"] = DECIMAL.exec(text) ?? [];
  if (whole + part === "" || Math.abs(Number(power)) > MOST_POWER) throw tooLarge(value);
  const digits = BigInt(`${sign === "-" ? "-" : ""}${whole}${part}`);
  const places = part.length - Number(power);
  return places > 0
    ? { over: digits, under: 10n ** BigInt(places) }
    : { over: digits * 10n ** BigInt(-places), under: 1n };
}

/** The product of all factors. */
export function product(...factors: readonly Numeric[]): Fraction {
  let over = 1n;
  let under = 1n;
  for (const factor of factors) {
    const exact = exactly(factor);
    over *= exact.over;
    under *= exact.under;
  }
  return { over, under };
}

/** One value divided by another. Throws Refusal for a division by 0. */
export function quotient(value: Numeric, by: Numeric): Fraction {
  const [up, down] = [exactly(value), exactly(by)];
  if (down.over === 0n) throw tooLarge(value);
  const sign = down.over < 0n ? -1n : 1n;
  return { over: up.over * down.under * sign, under: up.under * down.over * sign };
}

/** The sum of all values. */
export function sumOf(values: readonly Numeric[]): Fraction {
  return values
    .map(exactly)
    .reduce(
      (sum, one) =>
        sum.under === one.under
          ? { over: sum.over + one.over, under: sum.under }
          : { over: sum.over * one.under + one.over * sum.under, under: sum.under * one.under },
      { over: 0n, under: 1n },
    );
}

/** The nearest whole number, halves away from zero. */
export function nearest({ over, under }: Fraction): bigint {
  const size = over < 0n ? -over : over;
  const whole = (2n * size + under) / (2n * under);
  return over < 0n ? -whole : whole;
}
